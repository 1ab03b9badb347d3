// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/story/second_opinions.h"

#include <algorithm>

#include "cases/second_opinions/buckling.h"
#include "cases/second_opinions/hand_calculation.h"
#include "cases/second_opinions/shortcuts.h"
#include "cases/second_opinions/stored_energy.h"
#include "tools/story/cavity.h"

namespace crossgrain {
namespace {

/// Where the material itself gives way under the scaling loads, whatever ends the joint before
/// that.
std::optional<double> material_factor(const Judgement& judgement) {
  std::optional<double> least;
  for (const ModeResult& mode : judgement.modes) {
    if (mode.mode == FailureMode::tsai_wu || !mode.factor.value) continue;
    least = std::min(least.value_or(*mode.factor.value), *mode.factor.value);
  }
  return least;
}

/// The working case whose material gives way first: the one that a hand calculation is held
/// against.
std::optional<std::size_t> case_to_compare(const RunResult& result) {
  std::optional<std::size_t> found;
  const auto factor = [&](std::size_t i) { return material_factor(result.cases[i].scaling_loads); };
  for (std::size_t i = 0; i < result.cases.size(); ++i) {
    if (result.cases[i].kind != CaseKind::working || !factor(i)) continue;
    if (!found || *factor(i) < *factor(*found)) found = i;
  }
  return found;
}

/// Gauge pressure of the load that the hand calculation speaks of [MPa].
double hand_pressure(const PreparedCase& prepared) {
  const std::string& asked = prepared.case_file.hand_calculation.pressure;
  for (const PressureLoad& pressure : prepared.case_file.pressures) {
    if (asked.empty() || pressure.name == asked) return pressure.value;
  }
  return 0.0;
}

const Body& first_modelled(const Geometry& geometry) {
  return *std::find_if(geometry.bodies.begin(), geometry.bodies.end(),
                       [](const Body& body) { return body.modelled; });
}

void add_hand_calculation(PreparedCase& prepared, const JudgedModel& model, StaticSolver& solver,
                          RunResult& result) {
  const HandCalculationSpec& spec = prepared.case_file.hand_calculation;
  const auto compared = case_to_compare(result);
  if (spec.shape == HandShape::none || !compared) return;
  const Geometry& geometry = prepared.meshed.geometry;
  const Body& body = first_modelled(geometry);
  const BodySpec& body_spec = *spec_of_body(prepared.case_file, geometry)[index(body.id)];
  const MaterialCard card = find_card(body_spec.material, prepared.case_file.file.parent_path());
  const HandStrength strength = hand_strength(card, prepared.case_file.conditions.service.moisture);
  const double nu = prepared.materials.service[index(body.id)].nominal.elastic.nu_12;

  HandCalculationResult hand = hand_calculation(spec, hand_pressure(prepared), nu, strength);
  const ShortcutFactors shortcuts = shortcut_factors(
      solver, model, prepared.loading, prepared.loading.cases[*compared], prepared.field, strength);
  hand.isotropic_with_Z = shortcuts.isotropic_with_Z;
  add_chain(hand, {.hand = hand.safety_factor,
                   .thick_wall = thick_wall_factor(spec, hand_pressure(prepared), strength),
                   .real_shape_isotropic = shortcuts.isotropic,
                   .real_shape_anisotropic = shortcuts.anisotropic,
                   .full = material_factor(result.cases[*compared].scaling_loads)});
  result.hand_calculation = std::move(hand);
}

/// Greatest pressure that pushes a body in from outside, over what pushes out from inside [MPa].
double net_external_pressure(const CaseFile& case_file) {
  double outside = 0.0, inside = 0.0;
  for (const PressureLoad& pressure : case_file.pressures) {
    (pressure.faces.everything_outside ? outside : inside) += pressure.value;
  }
  return outside - inside;
}

void add_buckling(const PreparedCase& prepared, RunResult& result) {
  const Body& body = first_modelled(prepared.meshed.geometry);
  const MaterialAtConditions& material = prepared.materials.service[index(body.id)];
  result.buckling =
      check_buckling(prepared.case_file.hand_calculation, net_external_pressure(prepared.case_file),
                     material.sustained_modulus_MPa, material.nominal.elastic.nu_12);
}

/// The strain energy of the working case, which a burst sets free besides the fluid's [mJ].
double working_strain_energy(const RunResult& result) {
  double energy = 0.0;
  for (const CaseResult& judged : result.cases) {
    if (judged.kind == CaseKind::working) energy = std::max(energy, judged.strain_energy_mJ);
  }
  return energy;
}

void add_stored_energy(const PreparedCase& prepared, RunResult& result) {
  const auto cavity = pressurised_cavity(prepared);
  if (!cavity) return;
  result.cavity_volume_mm3 = cavity->volume;
  result.stored_energy =
      stored_energy(prepared.case_file.conditions, prepared.loading.working_pressure_MPa,
                    cavity->volume, working_strain_energy(result));
}

}  // namespace

void add_second_opinions(PreparedCase& prepared, const JudgedModel& model, StaticSolver& solver,
                         RunResult& result) {
  add_hand_calculation(prepared, model, solver, result);
  add_buckling(prepared, result);
  add_stored_energy(prepared, result);
}

}  // namespace crossgrain
