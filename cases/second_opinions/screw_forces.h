// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/run_result.h"

namespace crossgrain {

/// For every screw group that presses a round gasket: what a hand calculation takes each screw to
/// carry of the fluid, F = p pi / 4 G^2 / n, G the middle of the gasket (common practice), beside
/// the thrust that this analysis gives them in its bound "screws take all of the pressure".
/// Gaskets that are no rings are left out.
std::vector<HandScrewForce> compare_screw_forces(const CaseFile& case_file,
                                                 const Geometry& geometry,
                                                 const Features& features);

}  // namespace crossgrain
