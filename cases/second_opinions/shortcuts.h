// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "cases/judgement/judged_cases.h"
#include "cases/second_opinions/hand_calculation.h"

namespace crossgrain {

/// What simpler analyses would have said on the same mesh, loads and supports: pressure factors
/// (the scaling loads' with the held ones held) of one load case. Absent: no limit found.
struct ShortcutFactors {
  FactorRange isotropic_with_Z;     ///< the trade's shortcut: Z modulus and Z strength everywhere
  std::optional<double> isotropic;  ///< the hand calculation's view of the real shape
  std::optional<double>
      anisotropic;              ///< the printed stiffness, still the hand calculation's strength
  CombinedCase isotropic_case;  ///< the load case in the hand calculation's view
};

/// Solve the simpler models. Changes the solver's material and the loading's material-dependent
/// parts.
/// @param load_case  whose loads are judged.  @param nominal  the real field.
ShortcutFactors shortcut_factors(StaticSolver& solver, const JudgedModel& model, Loading& loading,
                                 const LoadCase& load_case, const MaterialField& nominal,
                                 const HandStrength& strength, const ElementarySolution& solution);

}  // namespace crossgrain
