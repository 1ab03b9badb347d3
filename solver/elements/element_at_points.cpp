// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/elements/element_at_points.h"

#include <Eigen/LU>
#include <sstream>
#include <stdexcept>

namespace crossgrain {
namespace {

[[noreturn]] void refuse_inverted(const Eigen::Matrix<double, 3, 10>& nodes,
                                  Eigen::Index tetrahedron, double determinant) {
  std::ostringstream message;
  message << "element " << tetrahedron << " near ("
          << nodes.leftCols<4>().rowwise().mean().transpose().format(
                 Eigen::IOFormat(6, 0, ", ", ", "))
          << ") mm is inverted: its Jacobian determinant is " << determinant
          << " mm^3; mesh again with another size, or straighten its edges";
  throw std::invalid_argument(message.str());
}

}  // namespace

ElementAtPoints::ElementAtPoints(const TetrahedronRule& rule)
    : rule_(rule), gradients_(rule.size()), weights_(rule.size()) {
  for (const auto& point : rule.points.colwise()) {
    shapes_.push_back(tetrahedron_shape(point));
    local_gradients_.push_back(tetrahedron_local_gradients(point));
  }
}

void ElementAtPoints::move_to(const TetrahedronMesh& mesh, Eigen::Index tetrahedron) {
  for (int a = 0; a < 10; ++a) nodes_.col(a) = mesh.nodes.col(mesh.tetrahedra(a, tetrahedron));
  for (Eigen::Index q = 0; q < size(); ++q) {
    // Row d: how position changes along local coordinate d.
    const Eigen::Matrix3d jacobian = local_gradients_[q] * nodes_.transpose();
    const double determinant = jacobian.determinant();
    if (!(determinant > 0.0)) refuse_inverted(nodes_, tetrahedron, determinant);
    gradients_[q].noalias() = jacobian.inverse() * local_gradients_[q];
    weights_[q] = determinant * rule_.weights[q];
  }
}

Eigen::Matrix<double, 3, 10> nodal_vectors(const TetrahedronMesh& mesh, Eigen::Index tetrahedron,
                                           const Eigen::Ref<const Eigen::VectorXd>& stacked) {
  Eigen::Matrix<double, 3, 10> values;
  for (int a = 0; a < 10; ++a)
    values.col(a) = stacked.segment<3>(3 * Eigen::Index{mesh.tetrahedra(a, tetrahedron)});
  return values;
}

}  // namespace crossgrain
