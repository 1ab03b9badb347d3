// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/error/stress_functional.h"

#include "solver/elements/element_at_points.h"
#include "solver/elements/point_material.h"
#include "solver/elements/strain.h"

namespace crossgrain {

Eigen::VectorXd stress_functional(const TetrahedronMesh& mesh, const MaterialField& field,
                                  std::span<const ElementShare> shares, const Vector6d& direction) {
  const auto& rule = stiffness_rule();
  const Eigen::MatrixX4d fit = fit_at_corners(rule);
  ElementAtPoints element(rule);
  PointMaterial material(field);
  Eigen::VectorXd forces = Eigen::VectorXd::Zero(mesh.unknowns());
  for (const auto& [tetrahedron, weights] : shares) {
    element.move_to(mesh, tetrahedron);
    const Eigen::VectorXd at_points = fit * weights;
    for (Eigen::Index q = 0; q < rule.size(); ++q) {
      const Vector6d work = at_points[q] * (material.stiffness(tetrahedron, q) * direction);
      const Eigen::Matrix<double, 3, 10> at_nodes = tensor_of(work) * element.gradients(q);
      for (int k = 0; k < 10; ++k)
        forces.segment<3>(3 * mesh.tetrahedra(k, tetrahedron)) += at_nodes.col(k);
    }
  }
  return forces;
}

}  // namespace crossgrain
