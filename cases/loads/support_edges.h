// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// How a face is held.
enum class HeldFace {
  sliding,  ///< along its normal alone: as by a mirror in it
  fixed,
};

/// The edges between held faces and free ones at which the hold makes stress without limit. Beside
/// a sliding face the material goes on in the mirror, so that from 90 degrees on there is an inner
/// edge; beside a fixed one it has no limit where the square of the angle's sine is above 1 - nu,
/// whatever nu: from 45 degrees on (M. L. Williams, J. Appl. Mech. 19 (1952) 526-528, plane
/// strain).
/// @param faces  held this way.
/// @param held   by any support: an edge between two of them belongs to none.
std::vector<EdgeId> edges_without_limit(const Geometry& geometry, const std::vector<FaceId>& faces,
                                        const std::vector<FaceId>& held, HeldFace how);

}  // namespace crossgrain
