// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/joint/screw_sizes.h"

namespace crossgrain {

/// Mean pressure of a screw's force on the ring between the hole and the head or washer.
/// @param force  [N]  @param outer, hole  diameters [mm]  @return [MPa]
double bearing_pressure(double force, double outer, double hole);

/// Diameter over which a washer under a socket head really presses: it bends, so that no more than
/// head + 1.6 thickness counts, and no more than it has.
/// Source: VDI 2230-1, dWa = dW + 1.6 hS (from memory).
double washer_spread(const ScrewSize& size);

/// What share of its compressive yield a plastic stands under a head. Usual, from memory and of
/// little weight; a user's setting replaces it.
struct BearingShare {
  double short_term = 0.5;  ///< minutes to hours [-]
  double long_term = 0.25;  ///< weeks and more: beyond it the head sinks in [-]
};

/// @param compressive_yield  of the material at its temperature [MPa]
/// @param share              one of `BearingShare` [-]
/// @return permitted pressure [MPa]
double bearing_limit(double compressive_yield, double share);

}  // namespace crossgrain
