// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

namespace crossgrain {

/// Points and weights on the unit tetrahedron (0,0,0) (1,0,0) (0,1,0) (0,0,1): symmetric under
/// renumbering of the corners, all points inside, all weights positive.
struct TetrahedronRule {
  int degree;               ///< polynomials up to here are integrated exactly
  Eigen::Matrix3Xd points;  ///< local coordinates
  Eigen::VectorXd weights;  ///< sum 1/6

  Eigen::Index size() const { return weights.size(); }
};

/// The same on the unit triangle; weights sum to 1/2.
struct TriangleRule {
  int degree;
  Eigen::Matrix2Xd points;
  Eigen::VectorXd weights;

  Eigen::Index size() const { return weights.size(); }
};

/// Rules of degree 2 (4 points), 5 (14), 6 (24) and 8 (46).
/// @throws std::invalid_argument for any other degree.
const TetrahedronRule& tetrahedron_rule(int degree);

/// The rule that stiffness, stress and energy are evaluated with; MaterialField::frame_of_point has
/// its points as columns.
const TetrahedronRule& stiffness_rule();

/// Degree 6, 12 points: exact for a pressure that is linear in position on curved triangles
/// (shape function 2 + area vector 2 + position 2).
const TriangleRule& surface_rule();

}  // namespace crossgrain
