// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/directions/strain_batch.h"

#include <cassert>
#include <stdexcept>
#include <string>

#include "solver/stress/element_stress.h"

namespace crossgrain {

StrainBatch::StrainBatch(const TetrahedronMesh& mesh, const TetrahedronRule& rule,
                         const Eigen::MatrixXd& displacements)
    : mesh_(mesh),
      rule_(rule),
      displacements_(displacements),
      element_(rule),
      local_gradients_(30, rule.size()),
      fit_(fit_at_corners(rule).transpose()),
      nodes_(batch, 30),
      u_(batch, 30 * displacements.cols()),
      work_(batch, 37 * rule.size()),
      moments_(batch, 180 * displacements.cols()),
      at_corners_(batch, 24 * displacements.cols()) {
  for (Eigen::Index q = 0; q < rule.size(); ++q)
    local_gradients_.col(q) = tetrahedron_local_gradients(rule.points.col(q)).reshaped();
}

void StrainBatch::take(Eigen::Index tetrahedron) {
  assert(!full());
  tetrahedra_[count_] = tetrahedron;
  for (int a = 0; a < 10; ++a) {
    const Eigen::Index node = mesh_.tetrahedra(a, tetrahedron);
    for (int k = 0; k < 3; ++k) {
      nodes_(count_, 3 * a + k) = mesh_.nodes(k, node);
      for (Eigen::Index c = 0; c < displacements_.cols(); ++c)
        u_(count_, 30 * c + 3 * a + k) = displacements_(3 * node + k, c);
    }
  }
  ++count_;
}

void StrainBatch::integrate() {
  // Unused lanes repeat the first element.
  for (int lane = count_; lane < batch; ++lane) {
    nodes_.row(lane) = nodes_.row(0);
    u_.row(lane) = u_.row(0);
  }
  double least_jacobian[batch];
  kernels().strain_moments(
      {static_cast<int>(rule_.size()), local_gradients_.data(), rule_.weights.data(), fit_.data()},
      nodes_.data(), static_cast<int>(displacements_.cols()), u_.data(), work_.data(),
      moments_.data(), at_corners_.data(), volume_, least_jacobian);
  for (int lane = 0; lane < count_; ++lane) {
    if (least_jacobian[lane] > 0.0) continue;
    element_.move_to(mesh_, tetrahedra_[lane]);  // throws, with the element's place
    throw std::invalid_argument("element " + std::to_string(tetrahedra_[lane]) +
                                " is flat to round-off; mesh again with another size");
  }
}

StrainBatch::Moments StrainBatch::moments(int lane, Eigen::Index displacement) const {
  Moments moments;
  for (Eigen::Index s = 0; s < moments.size(); ++s)
    moments.data()[s] = moments_(lane, moments.size() * displacement + s);
  return moments;
}

Eigen::Matrix<double, 6, 4> StrainBatch::at_corners(int lane, Eigen::Index displacement) const {
  Eigen::Matrix<double, 6, 4> strain;
  for (Eigen::Index s = 0; s < strain.size(); ++s)
    strain.data()[s] = at_corners_(lane, strain.size() * displacement + s);
  return strain;
}

}  // namespace crossgrain
