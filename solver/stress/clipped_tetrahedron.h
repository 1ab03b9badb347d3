// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <optional>

namespace crossgrain {

struct Ball {
  Eigen::Vector3d centre;  ///< [mm]
  double radius;           ///< [mm]
};

/// Corners of a straight tetrahedron, of positive orientation [mm].
using StraightTetrahedron = Eigen::Matrix<double, 3, 4>;

/// Integrals over the part of a tetrahedron that lies in a ball: of barycentric coordinate v times
/// function j of 1, (x - centre) / radius [mm^3]. Exact where the ball holds all of it; else by
/// cones from the centre over its sides, exact along their rays, by a rule of degree 6 across them.
/// @return nothing if the ball does not reach it.
std::optional<Eigen::Matrix4d> clipped_moments(const StraightTetrahedron& corners,
                                               const Ball& ball);

/// Distance of a point from a triangle [mm]. @param corners  columns.
double distance_to_triangle(const Eigen::Matrix3d& corners, const Eigen::Vector3d& point);

}  // namespace crossgrain
