// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/run_result.h"

namespace crossgrain {

/// Edges at which the raw stress has grown from mesh to mesh as it does where it has no limit. At
/// an inner edge it goes with the elements' size to the power of -0.18 at a material angle of 200
/// degrees, -0.46 at 270 and -0.5 at 360 (Williams, J. Appl. Mech. 19 (1952) 526-528), elsewhere
/// to that of 0 once the mesh follows it.
/// Told are edges where the raw stress counts: its factor is below one and a half times the
/// governing one; and only where elements shrank to two thirds or less.
std::vector<GrowingEdge> growing_edges(const std::vector<MeshPass>& passes);

}  // namespace crossgrain
