// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/judged_cases.h"

#include <cassert>

namespace crossgrain {

namespace {

/// @param wholly  with fields and strain energy.
std::vector<CaseResult> judged(const JudgedModel& model, const Loading& loading,
                               const ElementarySolution& solution, const MaterialField& field,
                               MaterialSet set, bool wholly) {
  std::vector<CaseResult> results;
  for (const auto& load_case : loading.cases) {
    // A proof test asks the short-term strengths for no margin beyond its own factor.
    const bool is_proof = load_case.kind == CaseKind::proof;
    const JudgeOptions options{is_proof ? 1.0 : model.targets.safety_factor, wholly, model.threads};
    const auto combined = combine(load_case, loading, solution);
    const auto yardstick =
        yardstick_of(model.materials, load_case.strengths, set, model.targets.criterion);
    results.push_back(judge_case(load_case, combined, model.sites, field, yardstick, options));
    if (!wholly) continue;
    results.back().strain_energy_mJ =
        strain_energy(model.mesh, field, combined.displacement, combined.temperature_change);
  }
  return results;
}

}  // namespace

std::vector<CaseResult> judge_cases(const JudgedModel& model, const Loading& loading,
                                    const ElementarySolution& solution, const MaterialField& field,
                                    MaterialSet set) {
  return judged(model, loading, solution, field, set, set == MaterialSet::nominal);
}

std::vector<CaseResult> judge_factors(const JudgedModel& model, const Loading& loading,
                                      const ElementarySolution& solution,
                                      const MaterialField& field) {
  return judged(model, loading, solution, field, MaterialSet::nominal, false);
}

OtherAnswer answer_of(const std::vector<SolidMaterial>& solids, StaticSolver& solver,
                      const JudgedModel& model, Loading& loading, const MaterialField& nominal,
                      const ElementarySolution& solution) {
  OtherAnswer other{nominal, {}};
  other.field.materials = solids;
  solver.set_material(other.field);
  update_field_loads(loading, model.mesh, other.field);
  other.solution = solve_loads(solver, model.mesh, other.field, model.sites.fit, loading,
                               &solution.displacement);
  return other;
}

void widen_ranges(std::vector<CaseResult>& results, const std::vector<CaseResult>& others) {
  assert(others.size() == results.size());
  for (std::size_t i = 0; i < results.size(); ++i) widen_range(results[i], others[i]);
}

void add_ranges(std::vector<CaseResult>& results, StaticSolver& solver, const JudgedModel& model,
                Loading& loading, const MaterialField& nominal, const ElementarySolution& solution,
                const StiffnessEnds& ends) {
  const auto widen = [&](const ElementarySolution& other, const MaterialField& field) {
    for (const auto set : {MaterialSet::low, MaterialSet::high})
      widen_ranges(results, judge_cases(model, loading, other, field, set));
  };
  widen(solution, nominal);
  for (const auto* solids : {&ends.weak, &ends.strong}) {
    const OtherAnswer other = answer_of(*solids, solver, model, loading, nominal, solution);
    widen(other.solution, other.field);
  }
}

}  // namespace crossgrain
