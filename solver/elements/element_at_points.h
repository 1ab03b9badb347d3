// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/elements/quadrature.h"
#include "solver/elements/shape_functions.h"

namespace crossgrain {

/// The geometry of one curved tetrahedron at the points of a rule: gradients, weights, positions.
/// Made once per thread and moved from element to element.
class ElementAtPoints {
 public:
  explicit ElementAtPoints(const TetrahedronRule& rule);

  /// @throws std::invalid_argument naming the element and its place if the Jacobian determinant is
  /// not positive at a point: the element is inverted.
  void move_to(const TetrahedronMesh& mesh, Eigen::Index tetrahedron);

  Eigen::Index size() const { return weights_.size(); }
  const TetrahedronShape& shape(Eigen::Index point) const { return shapes_[point]; }
  /// Column a: gradient of shape function a by position [1/mm].
  const TetrahedronGradients& gradients(Eigen::Index point) const { return gradients_[point]; }
  /// Share of the volume [mm^3].
  double weight(Eigen::Index point) const { return weights_[point]; }
  Eigen::Vector3d position(Eigen::Index point) const { return nodes_ * shapes_[point]; }
  double volume() const { return weights_.sum(); }

 private:
  const TetrahedronRule& rule_;
  std::vector<TetrahedronShape> shapes_;
  std::vector<TetrahedronGradients> local_gradients_;
  std::vector<TetrahedronGradients> gradients_;
  Eigen::VectorXd weights_;
  Eigen::Matrix<double, 3, 10> nodes_;
};

/// Values at the ten nodes of an element, out of a vector stacked x y z per node: column a is node
/// a.
Eigen::Matrix<double, 3, 10> nodal_vectors(const TetrahedronMesh& mesh, Eigen::Index tetrahedron,
                                           const Eigen::Ref<const Eigen::VectorXd>& stacked);

}  // namespace crossgrain
