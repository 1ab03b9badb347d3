// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

struct FlatTriangle {
  Eigen::Vector3d a, b, c;  ///< [mm]
  /// Twice its area, outward [mm^2].
  Eigen::Vector3d outward() const;
};

FlatTriangle flat_triangle(const SurfaceTriangles& surface, Eigen::Index number);

/// Along the ray from the origin, negative behind it; NaN or infinite where it misses [mm].
/// @param direction  unit.
double distance_along_ray(const FlatTriangle& t, const Eigen::Vector3d& origin,
                          const Eigen::Vector3d& direction);

/// From a point to the nearest point of the triangle, squared [mm^2].
double squared_distance(const FlatTriangle& t, const Eigen::Vector3d& point);

/// Under which the triangle is seen from a point, positive from within [sr].
double solid_angle(const FlatTriangle& t, const Eigen::Vector3d& point);

}  // namespace crossgrain
