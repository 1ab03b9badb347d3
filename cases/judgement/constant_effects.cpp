// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/constant_effects.h"

#include <algorithm>
#include <limits>

#include "cases/judgement/constant_variations.h"
#include "cases/judgement/factor_range.h"
#include "cases/judgement/foretold_factor.h"
#include "cases/judgement/strength_sets.h"

namespace crossgrain {
namespace {

std::vector<std::optional<double>> of_strengths(const std::vector<ConstantVariation>& all,
                                                const JudgedModel& model, const Loading& loading,
                                                const ElementarySolution& solution,
                                                const MaterialField& field) {
  std::vector<std::vector<Strength>> sets;
  for (const ConstantVariation& variation : all) {
    if (!variation.constant.is_strength) continue;
    auto& set = sets.emplace_back();
    for (const SolidMaterial& solid : variation.solids) set.push_back(solid.strength);
  }
  return factors_of_strengths(sets, model, loading, solution, field);
}

void take_in(const ConstantVariation& variation, const std::optional<double>& factor,
             std::vector<ConstantEffect>& effects) {
  const bool is_low = variation.end == RangeEnd::low;
  if (is_low)
    effects.push_back(
        {variation.card, variation.constant, std::nullopt, std::nullopt,
         variation.constant.is_strength ? EffectBasis::judged : EffectBasis::foretold});
  ConstantEffect& effect = effects.back();
  (is_low ? effect.at_low : effect.at_high) = factor;
  Ranged& range = effect.constant.range;
  double& end = is_low ? range.low : range.high;
  end = range.value + variation.way * (end - range.value);
}

}  // namespace

double reach_of(const ConstantEffect& effect) {
  if (!effect.at_low && !effect.at_high) return 0.0;
  if (!effect.at_low || !effect.at_high) return std::numeric_limits<double>::infinity();
  return std::abs(*effect.at_high - *effect.at_low);
}

std::vector<ConstantEffect> constant_effects(const RunResult& result, const JudgedModel& model,
                                             const Loading& loading,
                                             const ElementarySolution& solution,
                                             const MaterialField& field,
                                             const Eigen::VectorXd& counted, StaticSolver& solver) {
  const std::vector<ConstantVariation> all = constant_variations(model.mesh, model.materials);
  const auto state = governing_state(result, model.sites);
  std::optional<ForetoldFactor> governing;
  if (state && counted.size() > 0)
    governing.emplace(*state, model, loading, solution, field, counted, solver);

  std::vector<ConstantEffect> effects;
  const auto strengths = of_strengths(all, model, loading, solution, field);
  auto strength = strengths.begin();
  for (const ConstantVariation& variation : all) {
    if (variation.constant.is_strength)
      take_in(variation, *strength++, effects);
    else if (governing)
      take_in(variation, governing->with(variation.solids), effects);
  }
  rank(effects);
  return effects;
}

std::string_view name_of(EffectBasis basis) {
  switch (basis) {
    case EffectBasis::judged:
      return "judged";
    case EffectBasis::foretold:
      return "foretold";
    default:
      return "solved";
  }
}

void rank(std::vector<ConstantEffect>& effects) {
  std::ranges::stable_sort(effects, std::ranges::greater(), reach_of);
}

void follow(std::vector<ConstantEffect>& effects, const std::optional<double>& straight_line,
            const std::optional<double>& followed) {
  if (!straight_line || !followed || !(*straight_line > 0.0)) return;
  for (ConstantEffect& effect : effects) {
    if (effect.basis == EffectBasis::solved) continue;
    for (auto* end : {&effect.at_low, &effect.at_high})
      if (*end) **end *= *followed / *straight_line;
  }
  rank(effects);
}

StiffnessEnds stiffness_ends(const std::vector<ConstantEffect>& effects,
                             const BodyMaterials& materials) {
  StiffnessEnds ends;
  for (const MaterialAtConditions& material : materials.service) {
    const auto constants = ranged_constants(material);
    std::vector<RangeEnd> weak(constants.size(), RangeEnd::low),
        strong(constants.size(), RangeEnd::high);
    bool known = false;
    for (std::size_t c = 0; c < constants.size(); ++c) {
      const auto effect = std::ranges::find_if(effects, [&](const ConstantEffect& other) {
        return other.card == material.card && other.constant.name == constants[c].name;
      });
      if (effect == effects.end() || effect->basis == EffectBasis::judged) continue;
      known = true;
      if (is_less(effect->at_high, effect->at_low)) std::swap(weak[c], strong[c]);
    }
    ends.weak.push_back(known ? solid_at_ends(material, weak).solid : material.low);
    ends.strong.push_back(known ? solid_at_ends(material, strong).solid : material.high);
  }
  return ends;
}

}  // namespace crossgrain
