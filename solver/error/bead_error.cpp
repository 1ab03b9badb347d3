// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/error/bead_error.h"

#include <cmath>

#include "solver/error/patch_recovery.h"
#include "solver/stress/body_points.h"

namespace crossgrain {

Eigen::Matrix<double, 6, 4> StressDoubt::of(int tetrahedron) const {
  const BodyPoints point_at(points_);
  Eigen::Matrix<double, 6, 4> doubt;
  for (int k = 0; k < 4; ++k)
    doubt.col(k) = recovered_.col(
        point_at.of(mesh_.tetrahedra(k, tetrahedron), mesh_.body_of_tetrahedron[tetrahedron]));
  return doubt - own_.of(tetrahedron);
}

std::vector<StressDoubt> stress_doubts(const TetrahedronMesh& mesh,
                                       const std::vector<StressPoint>& points,
                                       const std::vector<ElementStress>& own) {
  std::vector<const ElementStress*> fields;
  for (const ElementStress& field : own) fields.push_back(&field);
  auto recovered = recovered_over_patches(mesh, points, fields);
  std::vector<StressDoubt> doubts;
  for (std::size_t i = 0; i < own.size(); ++i)
    doubts.emplace_back(mesh, points, own[i], std::move(recovered[i]));
  return doubts;
}

void BeadError::add(double count, const StressDoubt& doubt) {
  for (std::size_t i = 0; i < parts_.size(); ++i)
    parts_[i] += count * doubt.of(shares_[i].tetrahedron) * shares_[i].weights;
}

double BeadError::along(const Vector6d& direction) const {
  double sum = 0.0;
  for (const Vector6d& part : parts_) sum += std::abs(direction.dot(part));
  return sum;
}

}  // namespace crossgrain
