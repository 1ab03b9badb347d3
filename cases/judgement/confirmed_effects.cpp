// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/confirmed_effects.h"

#include <algorithm>

#include "cases/judgement/constant_effects.h"
#include "cases/judgement/constant_variations.h"
#include "cases/judgement/factor_range.h"
#include "cases/judgement/followed_factor.h"
#include "cases/judgement/verdict.h"

namespace crossgrain {
namespace {

constexpr std::ptrdiff_t confirmed_most = 1;
// Shares of the factor. Less than the first is not worth knowing better; more than the second is
// solved for whatever the mesh may be off by, for both ends stand on the same mesh.
constexpr double least_worth_solving = 0.01, always_worth_solving = 0.1;

}  // namespace

std::optional<double> solved_factor(const std::vector<SolidMaterial>& solids, StaticSolver& solver,
                                    const JudgedModel& model, Loading& loading,
                                    const MaterialField& nominal,
                                    const ElementarySolution& solution,
                                    std::vector<CaseResult>* cases) {
  const OtherAnswer other = answer_of(solids, solver, model, loading, nominal, solution);
  RunResult run;
  run.cases = judge_factors(model, loading, other.solution, other.field);
  if (cases) *cases = run.cases;
  for (const FollowedFactor& followed :
       follow_factors(run.cases, solver, model, loading, other.field, other.solution))
    take_in(followed, run.cases[followed.load_case]);
  find_worst(run);
  return worse_of(run.factor, run.pressure_factor).value;
}

void confirm_effects(std::vector<ConstantEffect>& effects, RunResult& result, StaticSolver& solver,
                     const JudgedModel& model, Loading& loading, const MaterialField& nominal,
                     const ElementarySolution& solution) {
  const double factor = worse_of(result.factor, result.pressure_factor).value.value_or(0.0);
  const double least_reach =
      std::clamp(result.mesh_error ? result.mesh_error->factor : 0.0, least_worth_solving * factor,
                 always_worth_solving * factor);
  std::ptrdiff_t confirmed = 0;
  for (ConstantEffect& effect : effects) {
    if (effect.basis != EffectBasis::foretold) continue;
    if (!(reach_of(effect) > least_reach) || confirmed++ == confirmed_most) break;
    for (const RangeEnd end : {RangeEnd::low, RangeEnd::high}) {
      const ConstantVariation variation =
          constant_variation(effect.card, effect.constant.name, end, model.materials);
      std::vector<CaseResult> cases;
      (end == RangeEnd::low ? effect.at_low : effect.at_high) =
          solved_factor(variation.solids, solver, model, loading, nominal, solution, &cases);
      widen_ranges(result.cases, cases);
    }
    effect.basis = EffectBasis::solved;
  }
  rank(effects);
}

}  // namespace crossgrain
