// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// For evenly spread directions, the faces of a body that hold its point farthest that way: several
/// where they meet in an edge or a corner. A face inside never does, nor does a flat one that is
/// flush with the outside but not out at its rim, such as a lid's underside within its seal.
std::vector<std::vector<FaceId>> farthest_faces(const Geometry& geometry, BodyId body);

}  // namespace crossgrain
