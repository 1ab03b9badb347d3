// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/imposed_stress.h"

#include "solver/elements/quadrature.h"
#include "solver/elements/shape_functions.h"

namespace crossgrain::testing {

ElementStress imposed_stress(const TetrahedronMesh& mesh, const StressInSpace& field) {
  const auto& rule = stiffness_rule();
  const Eigen::MatrixX4d fit = fit_at_corners(rule);
  ElementStress stress;
  stress.at_corners.resize(6, 4 * mesh.tetrahedron_count());
  Eigen::Matrix<double, 6, Eigen::Dynamic> values(6, rule.size());
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    Eigen::Matrix<double, 3, 10> nodes;
    for (int k = 0; k < 10; ++k) nodes.col(k) = mesh.nodes.col(mesh.tetrahedra(k, t));
    for (Eigen::Index q = 0; q < rule.size(); ++q)
      values.col(q) = field(nodes * tetrahedron_shape(rule.points.col(q)));
    stress.at_corners.middleCols<4>(4 * t) = values * fit;
  }
  return stress;
}

StressInSpace all_components(const std::function<double(const Eigen::Vector3d&)>& value) {
  return [value](const Eigen::Vector3d& at) { return Vector6d::Constant(value(at)).eval(); };
}

}  // namespace crossgrain::testing
