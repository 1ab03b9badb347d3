// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/judged_cases.h"

namespace crossgrain {

/// The least factor over the load cases that speak for service, on all loads or the scaling ones,
/// for several sets of strengths under one stress: every site is judged that can govern.
/// @param sets  of each the service strengths by body index, none weaker than the materials' low
///              ends, none stronger than their high ends.
/// @return of each set; absent: no limit found.
std::vector<std::optional<double>> factors_of_strengths(
    const std::vector<std::vector<Strength>>& sets, const JudgedModel& model,
    const Loading& loading, const ElementarySolution& solution, const MaterialField& field);

}  // namespace crossgrain
