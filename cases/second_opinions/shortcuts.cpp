// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/shortcuts.h"

#include <functional>

namespace crossgrain {
namespace {

using Simplify = std::function<SolidMaterial(const SolidMaterial&)>;

MaterialField simplified(MaterialField field, const Simplify& simplify) {
  for (SolidMaterial& material : field.materials) material = simplify(material);
  return field;
}

Yardstick strengths_of(const std::vector<SolidMaterial>& materials, const Simplify& simplify,
                       Criterion criterion) {
  Yardstick yardstick{{}, criterion};
  for (const SolidMaterial& material : materials) {
    yardstick.strength_of_body.push_back(simplify(material).strength);
  }
  return yardstick;
}

}  // namespace

ShortcutFactors shortcut_factors(StaticSolver& solver, const JudgedModel& model, Loading& loading,
                                 const LoadCase& load_case, const MaterialField& nominal,
                                 const HandStrength& strength, const ElementarySolution& solution) {
  const auto solve = [&](const Simplify& simplify) {
    const MaterialField field = simplified(nominal, simplify);
    update_field_loads(loading, model.mesh, field);
    solver.set_material(field);
    return combine(load_case, loading,
                   solve_loads(solver, model.mesh, field, model.sites.fit, loading,
                               &solution.displacement, &load_case));
  };
  // One strength for all directions measures the same in every frame: global axes will do.
  const auto factor = [&](const CombinedCase& combined, const Simplify& simplify, MaterialSet set) {
    const auto materials = solid_materials(model.materials.service, set);
    const auto yardstick = strengths_of(materials, simplify, model.targets.criterion);
    return judge(model.sites, yardstick, combined.held, combined.scaling, model.threads)
        .factor.value;
  };
  const Simplify hand = [&](const SolidMaterial& m) {
    return isotropic_with_hand_strength(m, strength);
  };
  const Simplify printed = [&](const SolidMaterial& m) { return with_hand_strength(m, strength); };

  ShortcutFactors factors;
  const CombinedCase with_Z = solve(isotropic_with_Z);
  factors.isotropic_with_Z = {factor(with_Z, isotropic_with_Z, MaterialSet::nominal),
                              factor(with_Z, isotropic_with_Z, MaterialSet::low),
                              factor(with_Z, isotropic_with_Z, MaterialSet::high)};
  factors.isotropic_case = solve(hand);
  factors.isotropic = factor(factors.isotropic_case, hand, MaterialSet::nominal);
  factors.anisotropic = factor(solve(printed), printed, MaterialSet::nominal);
  return factors;
}

}  // namespace crossgrain
