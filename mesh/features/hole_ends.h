// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "mesh/features/face_neighbours.h"
#include "mesh/features/hole_walls.h"

namespace crossgrain {

/// Where a hole's wall ends.
struct HoleEnd {
  bool open = false;           ///< the void goes on beyond the wall
  std::optional<FaceId> face;  ///< the face at the end, past chamfers and fillets
  bool flat = false;           ///< that face is a plane across the axis
  double diameter = 0.0;  ///< of the edge on that face, if it is a circle; else of the hole [mm]
  double along = 0.0;     ///< position of that edge on the wall's axis [mm]
};

/// @param high  the end towards the wall's axis, else the other one.
HoleEnd end_of(const HoleWall& wall, bool high, const Geometry& geometry,
               const FaceNeighbours& neighbours);

}  // namespace crossgrain
