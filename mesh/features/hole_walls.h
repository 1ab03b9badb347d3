// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// The cylindrical wall of one hole: a face, its halves, or the pieces left by a cross hole.
struct HoleWall {
  BodyId body;
  std::vector<FaceId> faces;  ///< ascending
  Eigen::Vector3d axis;       ///< unit, towards the greater coordinate
  Eigen::Vector3d origin;     ///< on the axis [mm]
  double radius;              ///< [mm]
  double low, high;           ///< extent along the axis, from the origin [mm]

  Eigen::Vector3d at(double along) const { return origin + along * axis; }
};

/// Hollow cylinders of the modelled bodies that go all the way round a void, in order of their
/// lowest face.
std::vector<HoleWall> find_hole_walls(const Geometry& geometry);

/// Whether two axes lie on one line.
bool coaxial(const Eigen::Vector3d& axis_a, const Eigen::Vector3d& origin_a,
             const Eigen::Vector3d& axis_b, const Eigen::Vector3d& origin_b);

}  // namespace crossgrain
