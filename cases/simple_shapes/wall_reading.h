// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "mesh/geometry/surface_rays.h"

namespace crossgrain {

/// What a ray straight into a wall finds.
struct WallReading {
  Eigen::Vector3d from;
  Eigen::Vector3d inward;  ///< unit, into the material
  double thickness;        ///< [mm]
  FaceId beyond;           ///< the face it leaves by
  bool square;             ///< that face is square to the ray within 15 degrees
};

/// Where a ray really meets the face whose flat triangle it met [mm]: exact for planes, cylinders
/// and spheres. @param found  the distance to the triangle.
double exact_distance(const CadFace& face, const Eigen::Vector3d& from,
                      const Eigen::Vector3d& along, double found);

/// @param from  on the CAD surface [mm].  @param inward  unit, into the material.
std::optional<WallReading> read_wall(const Geometry& geometry, const SurfaceRays& rays,
                                     const Eigen::Vector3d& from, const Eigen::Vector3d& inward);

/// The value with as many below as above. @throws nothing; 0 of none.
double median_of(std::vector<double> values);

/// Within 5 % of each other: printers and draughts vary less than that, steps in a wall more
/// (common practice, no source).
bool even(double wall, double other);

}  // namespace crossgrain
