// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/interface/interface_law.h"

namespace crossgrain {

/// Pressure of a bedding and its slope by the squeeze.
struct BeddingPressure {
  double pressure;  ///< [MPa]
  double slope;     ///< [N/mm^3]
};

/// Without a stop. Negative squeeze follows the slope at zero. Beyond nine tenths of the thickness
/// the curve goes on straight, for an ideal rubber has no end there.
/// @param squeeze  [mm]
BeddingPressure bedding_pressure(const Bedding& bedding, double squeeze);

}  // namespace crossgrain
