// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judged_cases.h"

namespace crossgrain {

/// What the trade's isotropic analyses would have said of the same mesh, loads and supports: pressure factors (scaling
/// loads, the held ones held) of one load case. Absent: no limit found.
struct ShortcutFactors {
  /// One modulus and one strength, those along the build direction: von Mises stress against Zt.
  FactorRange isotropic_with_Z;
  /// One modulus, that in the layer: largest principal stress against Xt. A hand calculation's view of the real shape.
  std::optional<double> isotropic;
  /// The layered solid's stiffness, still the largest principal stress against Xt.
  std::optional<double> anisotropic;
};

/// Solve the shortcuts' models. Changes the solver's material.
/// @param load_case  whose loads are judged.  @param nominal  the real field, restored in `loading` at the end.
ShortcutFactors shortcut_factors(StaticSolver& solver, const JudgedModel& model, Loading& loading,
                                 const LoadCase& load_case, const MaterialField& nominal);

}  // namespace crossgrain
