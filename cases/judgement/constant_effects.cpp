// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/constant_effects.h"

#include <algorithm>
#include <limits>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/factor_slope.h"
#include "cases/judgement/strength_sets.h"
#include "solver/sensitivity/material_answer.h"

namespace crossgrain {
namespace {

constexpr RangeEnd both_ends[] = {RangeEnd::low, RangeEnd::high};

/// A card, and the bodies made of it.
struct RangedMaterial {
  std::vector<std::size_t> bodies;
  std::vector<RangedConstant> constants;
};

std::vector<RangedMaterial> ranged_materials(const JudgedModel& model) {
  std::vector<char> is_meshed(model.materials.service.size(), 0);
  for (const BodyId body : model.mesh.body_of_tetrahedron) is_meshed[index(body)] = 1;
  std::vector<RangedMaterial> found;
  for (std::size_t body = 0; body < is_meshed.size(); ++body) {
    if (!is_meshed[body]) continue;
    const MaterialAtConditions& material = model.materials.service[body];
    const auto same = std::ranges::find_if(found, [&](const RangedMaterial& other) {
      return model.materials.service[other.bodies.front()].card == material.card;
    });
    if (same != found.end())
      same->bodies.push_back(body);
    else
      found.push_back({{body}, ranged_constants(material)});
  }
  return found;
}

/// One constant of one material at one end: the solids of all bodies.
struct Variation {
  const RangedMaterial* of;
  std::size_t constant;
  RangeEnd end;
  double way;
  std::vector<SolidMaterial> solids;
};

std::vector<Variation> variations(const std::vector<RangedMaterial>& materials,
                                  const BodyMaterials& all) {
  std::vector<Variation> found;
  for (const RangedMaterial& material : materials)
    for (std::size_t c = 0; c < material.constants.size(); ++c)
      for (const RangeEnd end : both_ends) {
        std::vector<RangeEnd> ends(material.constants.size(), RangeEnd::value);
        ends[c] = end;
        Variation variation{&material, c, end, 1.0,
                            solid_materials(all.service, MaterialSet::nominal)};
        for (const std::size_t body : material.bodies) {
          auto [solid, way] = solid_at_ends(all.service[body], ends);
          variation.solids[body] = std::move(solid);
          variation.way = way;
        }
        found.push_back(std::move(variation));
      }
  return found;
}

bool is_strength(const Variation& variation) {
  return variation.of->constants[variation.constant].is_strength;
}

/// The governing factor under other solids, at its place.
class GoverningFactor {
 public:
  GoverningFactor(const GoverningState& state, const JudgedModel& model, const Loading& loading,
                  const ElementarySolution& solution, const MaterialField& field,
                  const Eigen::VectorXd& counted)
      : state_(state),
        model_(model),
        loading_(loading),
        field_(field),
        counts_(state.at_limit(loading.cases[state.load_case])),
        at_limit_(sum_of_loads(counts_, loading, solution)),
        answer_(model.mesh, field, {at_limit_.displacement, at_limit_.temperature_change}, counted,
                {model.sites.fit.shares(state.site),
                 factor_slope(state, StateStress(state, model, loading, solution, field))}),
        nominal_(answer_.with(field.materials)) {}

  std::optional<double> with(const std::vector<SolidMaterial>& solids) const {
    const double gain = answer_.with(solids, other_forces(solids)) - nominal_;
    // Stress grows by so much of what it may: the factor falls as its inverse.
    const double growth = 1.0 - gain / state_.factor;
    const auto factor = growth > 0.0 ? std::optional(state_.factor / growth) : std::nullopt;
    const LoadCase& load_case = loading_.cases[state_.load_case];
    return state_.held_apart ? least(factor, load_case.largest_lambda) : factor;
  }

 private:
  /// Weights change with the density.
  Eigen::VectorXd other_forces(const std::vector<SolidMaterial>& solids) const {
    Eigen::VectorXd forces;
    const bool lighter = !std::ranges::equal(solids, field_.materials, {}, &SolidMaterial::density,
                                             &SolidMaterial::density);
    for (std::size_t i = 0; lighter && i < counts_.size(); ++i) {
      const ElementaryLoad& load = loading_.loads[i];
      if (counts_[i] == 0.0 || !load.acceleration) continue;
      MaterialField other = field_;
      other.materials = solids;
      if (forces.size() == 0) forces = Eigen::VectorXd::Zero(model_.mesh.unknowns());
      forces +=
          counts_[i] * (body_load(model_.mesh, other, *load.acceleration) - load.nodal_forces);
    }
    return forces;
  }

  const GoverningState& state_;
  const JudgedModel& model_;
  const Loading& loading_;
  const MaterialField& field_;
  std::vector<double> counts_;
  SumOfLoads at_limit_;
  MaterialAnswer answer_;
  double nominal_;
};

std::vector<std::optional<double>> of_strengths(const std::vector<Variation>& all,
                                                const JudgedModel& model, const Loading& loading,
                                                const ElementarySolution& solution,
                                                const MaterialField& field) {
  std::vector<std::vector<Strength>> sets;
  for (const Variation& variation : all) {
    if (!is_strength(variation)) continue;
    auto& set = sets.emplace_back();
    for (const SolidMaterial& solid : variation.solids) set.push_back(solid.strength);
  }
  return factors_of_strengths(sets, model, loading, solution, field);
}

void take_in(const Variation& variation, const BodyMaterials& materials,
             const std::optional<double>& factor, std::vector<ConstantEffect>& effects) {
  const bool is_low = variation.end == RangeEnd::low;
  if (is_low)
    effects.push_back({materials.service[variation.of->bodies.front()].card,
                       variation.of->constants[variation.constant], std::nullopt, std::nullopt,
                       !is_strength(variation)});
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
                                             const Eigen::VectorXd& counted) {
  const std::vector<RangedMaterial> materials = ranged_materials(model);
  const std::vector<Variation> all = variations(materials, model.materials);
  const auto state = governing_state(result, model.sites);
  std::optional<GoverningFactor> governing;
  // Joined bodies answer a stiffness by parting elsewhere: their loads would follow.
  if (state && counted.size() > 0 && !loading.joined)
    governing.emplace(*state, model, loading, solution, field, counted);

  std::vector<ConstantEffect> effects;
  const auto strengths = of_strengths(all, model, loading, solution, field);
  auto strength = strengths.begin();
  for (const Variation& variation : all) {
    if (is_strength(variation))
      take_in(variation, model.materials, *strength++, effects);
    else if (governing)
      take_in(variation, model.materials, governing->with(variation.solids), effects);
  }
  std::ranges::stable_sort(effects, std::ranges::greater(), reach_of);
  return effects;
}

void follow(std::vector<ConstantEffect>& effects, const std::optional<double>& straight_line,
            const std::optional<double>& followed) {
  if (!straight_line || !followed || !(*straight_line > 0.0)) return;
  for (ConstantEffect& effect : effects)
    for (auto* end : {&effect.at_low, &effect.at_high})
      if (*end) **end *= *followed / *straight_line;
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
      if (effect == effects.end() || !effect->estimated) continue;
      known = true;
      if (is_less(effect->at_high, effect->at_low)) std::swap(weak[c], strong[c]);
    }
    ends.weak.push_back(known ? solid_at_ends(material, weak).solid : material.low);
    ends.strong.push_back(known ? solid_at_ends(material, strong).solid : material.high);
  }
  return ends;
}

}  // namespace crossgrain
