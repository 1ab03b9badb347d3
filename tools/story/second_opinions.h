// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/judged_cases.h"
#include "tools/story/prepared_case.h"

namespace crossgrain {

/// Beside the full answer: the hand calculation and the isotropic shortcut with the chain of ratios
/// that leads from one to the other, buckling under net external pressure, and the energy that a
/// burst would set free.
/// @param solution  of the nominal materials.
/// @param result  its cases are judged; `hand_calculation`, `buckling`, `stored_energy`,
/// `cavity_volume_mm3` are filled.
void add_second_opinions(PreparedCase& prepared, const JudgedModel& model, StaticSolver& solver,
                         const ElementarySolution& solution, RunResult& result);

}  // namespace crossgrain
