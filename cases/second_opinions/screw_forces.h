// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/second_opinions/flange_comparison.h"

namespace crossgrain {

/// For every circle of screws that presses a round gasket: what a hand calculation takes each screw
/// to carry of the fluid, F = p pi / 4 G^2 / n, G the middle of the gasket; how much that is for
/// each length of the circle; and the pressure that uses up the preload, p F_V / F (common
/// practice, no source). Beside them what this analysis gives the screws: of joined bodies as they
/// were solved, else in the bound "screws take all of the pressure".
/// @param seals  of one gasket the first counts.
std::vector<HandScrewForce> compare_screw_forces(const std::vector<AnsweredSeal>& seals,
                                                 bool solved, const Geometry& geometry,
                                                 const Features& features);

}  // namespace crossgrain
