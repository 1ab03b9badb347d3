// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/judged_cases.h"

namespace crossgrain {

/// What is foretold follows the governing place alone, where another may take over: solve anew at
/// both ends of the constant with the greatest foretold effect, and judge every place. No more than
/// one, for both ends cost as much as the ranges themselves; none whose effect is less than a
/// tenth and than what the mesh may be off by.
/// Renews the loads as `answer_of` does.
/// @param effects   ranked; the solved factors replace the foretold ones.
/// @param result    straight-line factors of the nominal constants; its cases' ranges take in what
///                  was solved.
/// @param solution  of the nominal field.
void confirm_effects(std::vector<ConstantEffect>& effects, RunResult& result, StaticSolver& solver,
                     const JudgedModel& model, Loading& loading, const MaterialField& nominal,
                     const ElementarySolution& solution);

/// The factor solved anew, every place judged, a joint followed: as a run with these solids would
/// find it.
/// @param cases  takes the load cases on straight lines, if it is given.
std::optional<double> solved_factor(const std::vector<SolidMaterial>& solids, StaticSolver& solver,
                                    const JudgedModel& model, Loading& loading,
                                    const MaterialField& nominal,
                                    const ElementarySolution& solution,
                                    std::vector<CaseResult>* cases = nullptr);

}  // namespace crossgrain
