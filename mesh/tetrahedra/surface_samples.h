// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <limits>
#include <vector>

#include "mesh/geometry/surface_rays.h"
#include "mesh/step/step_reader.h"
#include "mesh/tetrahedra/mesh_sizes.h"

namespace crossgrain {

/// Look at the modelled bodies' surfaces at points closer together than the size wanted there: how
/// curved they are, and how thick the wall is.
/// @param rays  one per body; those of bodies that are not modelled are not used.
std::vector<SurfaceSample> sample_surface(const ReadStep& step,
                                          const std::vector<SurfaceRays>& rays,
                                          const SizeRules& rules);

}  // namespace crossgrain
