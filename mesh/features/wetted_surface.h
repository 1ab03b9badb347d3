// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// A loop of edges where the wetted surface ends: a port, or a seal line.
struct Opening {
  std::string name;  ///< as the case names it; "opening 2" otherwise
  std::vector<EdgeId> edges;
  FaceId beyond;                ///< the dry face on the far side
  Eigen::Vector3d centre;       ///< [mm]
  Eigen::Vector3d vector_area;  ///< out of the cavity [mm^2]; thrust = pressure * vector_area
};

/// The faces that a fluid touches.
struct WettedSurface {
  std::vector<FaceId> faces;
  std::vector<Opening> openings;  ///< none: a closed cavity
  double area;                    ///< [mm^2]
  double volume;                  ///< of the cavity, openings capped flat [mm^3]
};

/// Faces the fluid does not enter: where the flood meets one of them, it stops.
struct FloodStop {
  std::string name;
  std::vector<FaceId> faces;  ///< of one choice, such as all faces in a plane
};

/// The first face that a fluid at this point touches: the nearest seen by rays in all directions.
/// @throws std::invalid_argument if the point lies in material, or sees no face.
FaceId face_seen_from(const Geometry& geometry, const Eigen::Vector3d& point);

/// Flood over neighbouring faces of one body from `start`, never entering a stop face. A stop may
/// be met in several loops: each is an opening, named "name 1", "name 2", ...
/// @throws std::invalid_argument naming the way out (the chain of faces) when the flood reaches the
/// body's outside; when a stop was named none of whose faces the flood met, or one of which is the
/// start.
WettedSurface flood(const Geometry& geometry, FaceId start, const std::vector<FloodStop>& stops);

/// Closed cavities: inner shells of the bodies.
std::vector<WettedSurface> closed_cavities(const Geometry& geometry);

}  // namespace crossgrain
