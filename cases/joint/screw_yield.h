// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/joint/screw_sizes.h"

namespace crossgrain {

/// Stress by von Mises in the thread of a screw under a pull and the torque of its thread, the
/// torsion yielding over the whole section (W = pi d0^3 / 12).
/// @param pull           [N]
/// @param thread_torque  what friction and pitch in the thread take; 0 once it is gone [N mm]
/// @return [MPa]
/// Source: VDI 2230-1, permitted assembly preload (the form from memory, checked against its table
/// in the tests).
double screw_stress(double pull, double thread_torque, const ScrewSize& size);

/// Preload at which tightening brings the screw to a share of its yield.
/// @param share            of the yield; VDI 2230 uses 0.9  @param yield  [MPa]
/// @param thread_friction  coefficient; the least that may occur gives the highest preload [-]
/// @return [N]
double preload_at_yield_share(double share, double yield, const ScrewSize& size,
                              double thread_friction);

}  // namespace crossgrain
