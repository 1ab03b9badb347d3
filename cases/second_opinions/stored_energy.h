// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case_file/case_file.h"
#include "cases/judgement/run_result.h"

namespace crossgrain {

/// Energy [mJ] that a gas sets free when it expands to the atmosphere,
/// 2.5 P V [1 - (Pa / P)^0.286] with absolute pressures. Source: ASME PCC-2, article 501,
/// appendix II. Under vacuum, the work |p| V of the atmosphere on a collapsing vessel, an upper
/// bound.
/// @param pressure  gauge [MPa].  @param volume  [mm^3].
double gas_energy(double pressure, double volume);

/// Energy [mJ] that a liquid stores, p^2 V / (2 K).
double liquid_energy(double pressure, double volume, double bulk_modulus);

/// What a burst would set free: the fluid, the strained wall, and air left unbled in a liquid.
/// @param pressure  gauge [MPa].  @param cavity_volume  [mm^3].
/// @param wall_strain_energy  of the pressurised part [mJ].
StoredEnergy stored_energy(const Conditions& conditions, double pressure, double cavity_volume,
                           double wall_strain_energy);

}  // namespace crossgrain
