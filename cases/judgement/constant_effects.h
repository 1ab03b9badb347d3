// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

#include "cases/judgement/judged_cases.h"

namespace crossgrain {

/// Move every number that is known to a range only to its ends, one by one, and tell the safety
/// factor there. For strengths every site is judged anew. For what stress depends on the factor is
/// foretold from the solution (`ForetoldFactor`): the governing place alone is followed.
/// @param result    with its worst factors found.
/// @param solution  with `field` and nominal constants.
/// @param counted   of the mesh's error; empty if nothing governs: then strengths only.
/// @param solver    with the field's stiffness; the additions of joined bodies' are replaced.
/// @return the greatest effect first. Bodies of one card move together.
std::vector<ConstantEffect> constant_effects(const RunResult& result, const JudgedModel& model,
                                             const Loading& loading,
                                             const ElementarySolution& solution,
                                             const MaterialField& field,
                                             const Eigen::VectorXd& counted, StaticSolver& solver);

/// The stable name used in results: "judged", "foretold", "solved".
std::string_view name_of(EffectBasis basis);

/// How far a constant moves the factor, from the least to the greatest value; infinite where an end
/// has no limit.
double reach_of(const ConstantEffect& effect);

/// Put the greatest effect first.
void rank(std::vector<ConstantEffect>& effects);

/// Factors found on a straight line keep their ratios to its value when that is followed farther.
void follow(std::vector<ConstantEffect>& effects, const std::optional<double>& straight_line,
            const std::optional<double>& followed);

/// The solids at which the factor's range is looked for: of each constant that stress depends on
/// the end with the smaller factor, by its effect, and the other end; low and high where none is
/// known.
StiffnessEnds stiffness_ends(const std::vector<ConstantEffect>& effects,
                             const BodyMaterials& materials);

}  // namespace crossgrain
