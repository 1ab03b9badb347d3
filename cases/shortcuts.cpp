// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/shortcuts.h"

namespace crossgrain {
namespace {

enum class Axis { layer, build };

bool is_layered(const SolidMaterial& material) {
  return std::holds_alternative<LayeredStrength>(material.strength);
}

/// The field with every layered material made isotropic with one of its moduli and nu_12.
MaterialField isotropic_field(const MaterialField& field, Axis axis) {
  MaterialField copy = field;
  for (SolidMaterial& material : copy.materials) {
    if (!is_layered(material)) continue;
    const double E = axis == Axis::layer ? material.elastic.E_1 : material.elastic.E_3;
    material.elastic = isotropic(E, material.elastic.nu_12);
  }
  return copy;
}

Strength one_number_strength(const Strength& strength, Axis axis) {
  const auto* layered = std::get_if<LayeredStrength>(&strength);
  if (layered == nullptr) return strength;
  if (axis == Axis::layer) return BrittleStrength{layered->Xt};
  return DuctileStrength{layered->Zt};
}

/// The strengths of one set with every layered one replaced by a single number.
Yardstick one_number_yardstick(const JudgedModel& model, StrengthBasis basis, MaterialSet set, Axis axis) {
  Yardstick yardstick = yardstick_of(model.materials, basis, set, model.targets.criterion);
  for (Strength& strength : yardstick.strength_of_body) strength = one_number_strength(strength, axis);
  return yardstick;
}

}  // namespace

ShortcutFactors shortcut_factors(StaticSolver& solver, const JudgedModel& model, Loading& loading,
                                 const LoadCase& load_case, const MaterialField& nominal) {
  const auto solve = [&](const MaterialField& field) {
    update_field_loads(loading, model.mesh, field);
    solver.set_material(field);
    return combine(load_case, loading, solve_loads(solver, model.mesh, field, model.sites.points, loading));
  };
  const auto factor = [&](const CombinedCase& combined, MaterialSet set, Axis axis) {
    // Isotropic measures of stress are the same in every frame: the global one will do.
    return judge(model.sites, one_number_yardstick(model, load_case.strengths, set, axis), combined.held,
                 combined.scaling, model.threads).factor.value;
  };
  ShortcutFactors factors;
  const CombinedCase with_Z = solve(isotropic_field(nominal, Axis::build));
  factors.isotropic_with_Z = {factor(with_Z, MaterialSet::nominal, Axis::build),
                              factor(with_Z, MaterialSet::low, Axis::build),
                              factor(with_Z, MaterialSet::high, Axis::build)};
  factors.isotropic = factor(solve(isotropic_field(nominal, Axis::layer)), MaterialSet::nominal, Axis::layer);
  factors.anisotropic = factor(solve(nominal), MaterialSet::nominal, Axis::layer);
  return factors;
}

}  // namespace crossgrain
