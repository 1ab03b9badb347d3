// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/surface_rays.h"
#include "mesh/tetrahedra/mesh_sizes.h"

namespace crossgrain {

/// Walls under the deepest points of hollows, a drill's tip or the bottom of a groove, which no ray
/// from the middle of a patch meets: the sizes wanted there.
/// @param rays  one per body; those of bodies that are not modelled are not used.
std::vector<SizedPoint> sized_pits(const Geometry& geometry, const std::vector<SurfaceRays>& rays,
                                   const SizeRules& rules);

}  // namespace crossgrain
