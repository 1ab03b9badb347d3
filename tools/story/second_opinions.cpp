// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/story/second_opinions.h"

#include <algorithm>

#include "cases/case_file/case_sources.h"
#include "cases/face_choice/face_choice.h"
#include "cases/second_opinions/buckling.h"
#include "cases/second_opinions/chosen_shape.h"
#include "cases/second_opinions/compared_shapes.h"
#include "cases/second_opinions/hand_calculation.h"
#include "cases/second_opinions/screw_forces.h"
#include "cases/second_opinions/shortcuts.h"
#include "cases/second_opinions/stored_energy.h"
#include "cases/simple_shapes/simple_shapes.h"
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

/// The load that the hand calculation speaks of; nullptr if the case has none.
const PressureLoad* hand_pressure(const CaseFile& case_file) {
  const std::string& asked = case_file.hand_calculation.pressure;
  for (const PressureLoad& pressure : case_file.pressures) {
    if (asked.empty() || pressure.name == asked) return &pressure;
  }
  return nullptr;
}

const Body& first_modelled(const Geometry& geometry) {
  return *std::find_if(geometry.bodies.begin(), geometry.bodies.end(),
                       [](const Body& body) { return body.modelled; });
}

/// What the part offers a hand calculation; nothing if the case names its shape.
std::vector<SimpleShape> shapes_offered(const PreparedCase& prepared) {
  const PressureLoad* pressure = hand_pressure(prepared.case_file);
  if (!prepared.case_file.hand_calculation.automatic || !pressure) return {};
  const Geometry& geometry = prepared.meshed.geometry;
  return simple_shapes(geometry, choose_faces(geometry, prepared.features, pressure->faces).faces);
}

/// Of a load case the part, held or scaling, that holds a load.
struct PartOfCase {
  bool scaling;
  bool other_loads;  ///< the case has others in it than that load and what its joints make of it

  const StressField& of(const CombinedCase& combined) const {
    return scaling ? combined.scaling : combined.held;
  }
};

/// In joined bodies' cases what scales is the difference of two states, of all scaling loads.
PartOfCase part_of_states(const PressureLoad& load, const CaseFile& case_file) {
  const auto acts = [&](const auto& others) {
    return std::ranges::any_of(others, [&](const auto& other) {
      return other.name != load.name && other.scales == load.scales;
    });
  };
  const bool others = acts(case_file.pressures) || acts(case_file.forces) ||
                      acts(case_file.accelerations) || acts(case_file.temperatures);
  return {load.scales, others || !load.scales};
}

PartOfCase part_with(const std::string& load, const LoadCase& load_case,
                     const PreparedCase& prepared) {
  const auto& loads = prepared.loading.loads;
  const auto place = [&](const std::string& name) {
    return static_cast<std::size_t>(std::ranges::find(loads, name, &ElementaryLoad::name) -
                                    loads.begin());
  };
  const bool scaling = load_case.scaling.at(place(load)) != 0.0;
  PartOfCase part{scaling, false};
  const auto look = [&](const auto& others) {
    for (const auto& other : others) {
      const auto& coefficients = scaling ? load_case.scaling : load_case.held;
      part.other_loads |= other.name != load && coefficients.at(place(other.name)) != 0.0;
    }
  };
  look(prepared.case_file.pressures);
  look(prepared.case_file.forces);
  look(prepared.case_file.accelerations);
  look(prepared.case_file.temperatures);
  return part;
}

/// The seals of the pressure that the hand calculation speaks of.
std::vector<AnsweredSeal> answered_seals(const PreparedCase& prepared, const PressureLoad& pressure,
                                         const LoadCase& load_case,
                                         const ElementarySolution& solution) {
  std::vector<AnsweredSeal> answered;
  for (ScrewedSeal& seal :
       screwed_seals(prepared.case_file, prepared.meshed.geometry, prepared.features)) {
    if (seal.pressure != &pressure) continue;
    const double gain = screws_gain(seal, load_case, prepared.loading, solution);
    answered.push_back({std::move(seal), gain});
  }
  return answered;
}

/// Flange rings and screw circles.
void add_joint_by_hand(const PreparedCase& prepared, const std::vector<AnsweredSeal>& seals,
                       const std::vector<SimpleShape>& shapes, const ComparedFields& fields,
                       HandCalculationResult& hand) {
  const Geometry& geometry = prepared.meshed.geometry;
  for (HandComparison& flange : compare_flange_rings(seals, shapes, geometry, fields))
    hand.comparisons.push_back(std::move(flange));
  hand.screw_forces =
      compare_screw_forces(seals, prepared.loading.joined.has_value(), geometry, prepared.features);
}

void add_hand_calculation(PreparedCase& prepared, const JudgedModel& model, StaticSolver& solver,
                          const ElementarySolution& solution,
                          const std::vector<SimpleShape>& shapes, RunResult& result) {
  const auto compared = case_to_compare(result);
  const PressureLoad* pressure = hand_pressure(prepared.case_file);
  HandCalculationSpec spec = prepared.case_file.hand_calculation;
  if (!compared || !pressure) return;
  if (pressure->value == 0.0 && (spec.automatic || spec.shape != HandShape::none)) {
    result.notes.push_back("No hand calculation: pressure '" + pressure->name +
                           "' is a head alone, which differs from place to place; the formulas "
                           "are those of one pressure.");
    return;
  }
  const Geometry& geometry = prepared.meshed.geometry;
  const Body& body = first_modelled(geometry);
  const double nu = prepared.materials.service[index(body.id)].nominal.elastic.nu_12;
  if (spec.automatic) spec = shape_of_greatest_stress(shapes, spec, pressure->value, nu);
  if (spec.shape == HandShape::none) {
    if (spec.automatic)
      result.notes.emplace_back(
          "No hand calculation: no cylinder, dome, flat panel or cover was recognised on the faces "
          "that the pressure acts on; [hand_calculation] can name a shape and its sizes.");
    return;
  }
  const BodySpec& body_spec = *spec_of_body(prepared.case_file, geometry)[index(body.id)];
  const MaterialCard card = find_card(body_spec.material, prepared.case_file.file.parent_path());
  const HandStrength strength = hand_strength(card, prepared.case_file.conditions.service.moisture);

  HandCalculationResult hand = hand_calculation(spec, pressure->value, nu, strength);
  const LoadCase& load_case = prepared.loading.cases[*compared];
  const CombinedCase printed = combine(load_case, prepared.loading, solution);
  const ShortcutFactors shortcuts = shortcut_factors(solver, model, prepared.loading, load_case,
                                                     prepared.field, strength, solution);
  hand.isotropic_with_Z = shortcuts.isotropic_with_Z;
  add_chain(hand, {.hand = hand.safety_factor,
                   .thick_wall = thick_wall_factor(spec, pressure->value, strength),
                   .real_shape_isotropic = shortcuts.isotropic,
                   .real_shape_anisotropic = shortcuts.anisotropic,
                   .full = material_factor(result.cases[*compared].scaling_loads)});
  const PartOfCase part = prepared.loading.joined ? part_of_states(*pressure, prepared.case_file)
                                                  : part_with(pressure->name, load_case, prepared);
  const ComparedFields fields{.mesh = model.mesh,
                              .points = model.sites.points,
                              .printed = part.of(printed),
                              .isotropic = part.of(shortcuts.isotropic_case),
                              .pressure = pressure->value,
                              .nu = nu,
                              .other_loads = part.other_loads};
  hand.comparisons = compare_shapes(shapes, fields);
  if (prepared.case_file.hand_calculation.automatic)
    add_joint_by_hand(prepared, answered_seals(prepared, *pressure, load_case, solution), shapes,
                      fields, hand);
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

void add_buckling(const PreparedCase& prepared, const std::vector<SimpleShape>& shapes,
                  RunResult& result) {
  const Body& body = first_modelled(prepared.meshed.geometry);
  const MaterialAtConditions& material = prepared.materials.service[index(body.id)];
  const HandCalculationSpec& named = prepared.case_file.hand_calculation;
  result.buckling = check_buckling(named.automatic ? most_slender_shell(shapes) : named,
                                   net_external_pressure(prepared.case_file),
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
                         const ElementarySolution& solution, RunResult& result) {
  const std::vector<SimpleShape> shapes = shapes_offered(prepared);
  add_hand_calculation(prepared, model, solver, solution, shapes, result);
  add_buckling(prepared, shapes, result);
  add_stored_energy(prepared, result);
}

}  // namespace crossgrain
