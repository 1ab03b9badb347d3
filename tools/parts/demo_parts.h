// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "tools/parts/step_writer.h"

namespace crossgrain::parts {

/// Two-piece water-filter housing: bowl with flange and eight insert holes, lid with eight
/// clearance holes and two ports. A 2 mm gasket lies between them, on the ring face named "gasket
/// ring".
std::vector<StepBody> filter_housing();

/// Irrigation pipe tee, three ports named "inlet", "outlet" and "branch".
std::vector<StepBody> pipe_tee();

/// Flat-sided laboratory manifold block: one gallery, four taps, two counterbored mounting holes.
std::vector<StepBody> manifold_block();

/// Round vacuum lid of a degassing chamber, with a hose port; the seal line is an edge of its
/// underside.
std::vector<StepBody> vacuum_lid();

}  // namespace crossgrain::parts
