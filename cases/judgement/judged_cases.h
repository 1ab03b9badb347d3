// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/body_materials.h"
#include "cases/judgement/case_judgement.h"
#include "cases/judgement/run_result.h"

namespace crossgrain {

/// Everything of a run that stays when the print direction or the material set changes.
struct JudgedModel {
  const TetrahedronMesh& mesh;
  const StressSites& sites;
  const BodyMaterials& materials;
  const Targets& targets;
  int threads = 0;
};

/// Judge every load case of a solved loading with one material set; with the nominal one fields and
/// strain energy as well.
std::vector<CaseResult> judge_cases(const JudgedModel& model, const Loading& loading,
                                    const ElementarySolution& solution, const MaterialField& field,
                                    MaterialSet set);

/// The same with the nominal strengths, without fields and strain energy.
std::vector<CaseResult> judge_factors(const JudgedModel& model, const Loading& loading,
                                      const ElementarySolution& solution,
                                      const MaterialField& field);

/// A loading solved with other solids in nominal frames.
struct OtherAnswer {
  MaterialField field;
  ElementarySolution solution;
};

/// Renews the loads that depend on the material, and leaves them so.
/// @param nominal   whose materials are replaced by `solids`, by body index.
/// @param solution  of the nominal field, where iterations begin.
OtherAnswer answer_of(const std::vector<SolidMaterial>& solids, StaticSolver& solver,
                      const JudgedModel& model, Loading& loading, const MaterialField& nominal,
                      const ElementarySolution& solution);

/// Take in what all cases come to with another set of constants, in the same order.
void widen_ranges(std::vector<CaseResult>& results, const std::vector<CaseResult>& others);

/// Solids by body index, two for each, of which one makes a part weaker than the nominal one and
/// the other stronger, as far as stress depends on them.
struct StiffnessEnds {
  std::vector<SolidMaterial> weak, strong;
};

/// Judge what the weak, the nominal and the strong solids answer with the low and with the high
/// ends of the strengths, and widen the factors' ranges.
/// Renews the loads as `answer_of` does.
/// @param results  of the nominal set, in the order of the loading's cases.
/// @param nominal  whose frames are kept; only its materials are replaced.
/// @param solution  of the nominal set, where iterations begin.
void add_ranges(std::vector<CaseResult>& results, StaticSolver& solver, const JudgedModel& model,
                Loading& loading, const MaterialField& nominal, const ElementarySolution& solution,
                const StiffnessEnds& ends);

}  // namespace crossgrain
