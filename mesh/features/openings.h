// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/features/face_neighbours.h"
#include "mesh/features/wetted_surface.h"

namespace crossgrain {

/// The closed loops of edges in which a set of faces ends, in the order of their lowest edge, not
/// yet named.
/// @param wet  by face.
std::vector<Opening> openings_of(const Geometry& geometry, const FaceNeighbours& neighbours,
                                 const std::vector<bool>& wet);

/// What the openings, capped flat, and the faces enclose [mm^3].
double enclosed_volume(const Geometry& geometry, const std::vector<FaceId>& faces,
                       const std::vector<Opening>& openings);

}  // namespace crossgrain
