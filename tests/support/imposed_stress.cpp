// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/imposed_stress.h"

#include <Eigen/LU>

#include "solver/elements/element_at_points.h"

namespace crossgrain::testing {

ElementStress imposed_stress(const TetrahedronMesh& mesh,
                             const std::function<double(const Eigen::Vector3d&)>& field) {
  const auto& rule = stiffness_rule();
  Eigen::MatrixX4d at_points(rule.size(), 4);
  at_points << Eigen::VectorXd::Ones(rule.size()), rule.points.transpose();
  Eigen::Matrix4d at_corners;
  at_corners << Eigen::RowVector4d::Ones(), Eigen::Vector3d::Zero(), Eigen::Matrix3d::Identity();
  const Eigen::MatrixX4d fit =
      at_points * (at_points.transpose() * at_points).inverse() * at_corners;
  ElementStress stress;
  stress.at_corners.resize(6, 4 * mesh.tetrahedron_count());
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    Eigen::Matrix<double, 3, 10> nodes;
    for (int k = 0; k < 10; ++k) nodes.col(k) = mesh.nodes.col(mesh.tetrahedra(k, t));
    Eigen::RowVectorXd values(rule.size());
    for (Eigen::Index q = 0; q < rule.size(); ++q)
      values[q] = field(nodes * tetrahedron_shape(rule.points.col(q)));
    stress.at_corners.middleCols<4>(4 * t) = Eigen::VectorXd::Ones(6) * (values * fit);
  }
  return stress;
}

}  // namespace crossgrain::testing
