// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_json.h"

#include "cases/case_file/case_settings.h"
#include "tools/results/json_parts.h"
#include "tools/results/warnings.h"

namespace crossgrain {

std::string_view name_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass:
      return "pass";
    case Verdict::marginal:
      return "marginal";
    case Verdict::fail:
      return "fail";
    default:
      return "not_trusted";
  }
}

std::string_view name_of(CaseKind kind) {
  switch (kind) {
    case CaseKind::assembly:
      return "assembly";
    case CaseKind::working:
      return "working";
    case CaseKind::user:
      return "user";
    default:
      return "proof";
  }
}

namespace {

Json governing_json(const RunResult& result) {
  if (!result.governing) return nullptr;
  Json out = json_mode(*result.governing);
  out["load_case"] = result.governing_case;
  return out;
}

/// What was asked, in words, as `compare` sets two runs side by side.
Json settings_json(const CaseFile& case_file) {
  Json out = Json::array();
  for (const auto& [name, value] : case_settings(case_file))
    out.push_back({{"name", name}, {"value", value}});
  return out;
}

Json load_case_json(const CaseResult& load_case, const CaseFileNames& files) {
  return {{"name", load_case.name},
          {"kind", name_of(load_case.kind)},
          {"bound", load_case.bound},
          {"safety_factor", json_judgement(load_case.all_loads)},
          {"pressure_factor", json_judgement(load_case.scaling_loads)},
          {"allowable_pressure_MPa", json_number(load_case.allowable_pressure_MPa)},
          {"allowable_pressure_low_MPa", json_number(load_case.allowable_pressure_low_MPa)},
          {"allowable_pressure_high_MPa", json_number(load_case.allowable_pressure_high_MPa)},
          {"allowable_limited_by", load_case.allowable_limited_by},
          {"leading_pressure_MPa", json_number(load_case.leading_value_MPa)},
          {"distrust", load_case.distrust},
          {"displacement_max_mm", load_case.displacement_max_mm},
          {"strain_energy_mJ", load_case.strain_energy_mJ},
          {"fields_file", files.fields},
          {"faces_file", files.faces}};
}

Json load_cases_json(const RunResult& result) {
  const std::vector<CaseFileNames> files = case_file_names(result);
  Json out = Json::array();
  for (std::size_t i = 0; i < result.cases.size(); ++i)
    out.push_back(load_case_json(result.cases[i], files[i]));
  return out;
}

std::string_view name_of_standing(Standing standing) {
  switch (standing) {
    case Standing::measured:
      return "measured";
    case Standing::data_sheet:
      return "data_sheet";
    case Standing::memory:
      return "memory";
    default:
      return "estimated";
  }
}

Json assumption_json(const Assumption& assumption) {
  return {{"quantity", assumption.quantity}, {"value", assumption.value},
          {"low", assumption.low},           {"high", assumption.high},
          {"unit", assumption.unit},         {"standing", name_of_standing(assumption.standing)},
          {"rule", assumption.rule}};
}

Json knock_down_json(const KnockDown& knock_down) {
  return {{"cause", knock_down.cause}, {"applies_to", knock_down.applies},
          {"value", knock_down.value}, {"low", knock_down.low},
          {"high", knock_down.high},   {"rule", knock_down.rule}};
}

Json strengths_json(const Strength& strength) {
  if (const auto* layered = std::get_if<LayeredStrength>(&strength)) {
    return {{"Xt_MPa", layered->Xt},
            {"Xc_MPa", layered->Xc},
            {"Zt_MPa", layered->Zt},
            {"Zc_MPa", layered->Zc},
            {"Sz_MPa", layered->Sz}};
  }
  if (const auto* ductile = std::get_if<DuctileStrength>(&strength))
    return {{"yield_MPa", ductile->yield}};
  return {{"tensile_MPa", std::get<BrittleStrength>(strength).tensile}};
}

Json material_json(const MaterialAtConditions& material) {
  const OrthotropicConstants& elastic = material.nominal.elastic;
  Json out = {{"card", material.card},
              {"title", material.title},
              {"strength_at_conditions", strengths_json(material.nominal.strength)},
              {"elastic_at_conditions",
               {{"E_1_MPa", elastic.E_1},
                {"E_2_MPa", elastic.E_2},
                {"E_3_MPa", elastic.E_3},
                {"nu_12", elastic.nu_12},
                {"nu_13", elastic.nu_13},
                {"nu_23", elastic.nu_23},
                {"G_23_MPa", elastic.G_23},
                {"G_13_MPa", elastic.G_13},
                {"G_12_MPa", elastic.G_12}}},
              {"sustained_modulus_MPa", material.sustained_modulus_MPa},
              {"bead_width_mm", material.bead_width_mm},
              {"assumptions", Json::array()},
              {"knock_downs", Json::array()}};
  for (const Assumption& assumption : material.assumptions)
    out["assumptions"].push_back(assumption_json(assumption));
  for (const KnockDown& factor : material.knock_downs)
    out["knock_downs"].push_back(knock_down_json(factor));
  return out;
}

Json bodies_json(const RunResult& result) {
  Json out = Json::array();
  for (std::size_t i = 0; i < result.body_names.size(); ++i) {
    out.push_back({{"name", result.body_names[i]},
                   {"mass_g", result.body_mass_g.at(i)},
                   {"print_direction", json_vector(result.print_directions.at(i))},
                   {"material", material_json(result.materials.at(i))}});
  }
  return out;
}

Json openings_json(const RunResult& result) {
  Json out = Json::array();
  for (const OpeningThrust& opening : result.thrusts) {
    out.push_back({{"pressure", opening.pressure},
                   {"opening", opening.opening},
                   {"thrust_N", json_vector(opening.thrust)},
                   {"carried_by", opening.carried_by}});
  }
  return out;
}

Json reactions_json(const RunResult& result) {
  Json out = Json::array();
  for (const SupportReaction& reaction : result.reactions) {
    out.push_back({{"support", reaction.name},
                   {"load_case", reaction.load_case},
                   {"force_N", json_vector(reaction.force)},
                   {"moment_about_origin_Nmm", json_vector(reaction.moment)}});
  }
  return out;
}

Json probes_json(const RunResult& result) {
  Json out = Json::array();
  for (const ProbeResult& probe : result.probes) {
    Json samples = Json::array();
    for (std::size_t i = 0; i < probe.positions.size(); ++i) {
      samples.push_back({{"position_mm", json_vector(probe.positions[i])},
                         {"displacement_mm", json_vector(probe.displacement.at(i))},
                         {"stress_MPa", json_global_stress(probe.stress.at(i))}});
    }
    out.push_back({{"name", probe.name}, {"load_case", probe.load_case}, {"samples", samples}});
  }
  return out;
}

Json comparisons_json(const std::vector<HandComparison>& comparisons) {
  Json out = Json::array();
  for (const HandComparison& c : comparisons) {
    Json inputs = Json::array();
    for (const HandInput& input : c.inputs)
      inputs.push_back({{"symbol", input.symbol}, {"value", input.value}, {"unit", input.unit}});
    Json faces = Json::array();
    for (const FaceId face : c.faces) faces.push_back(number(face));
    out.push_back({{"shape", c.shape},
                   {"faces", faces},
                   {"formula", c.formula},
                   {"inputs", inputs},
                   {"hand_MPa", c.hand_MPa},
                   {"from_mm", json_vector(c.from)},
                   {"to_mm", json_vector(c.to)},
                   {"membrane_MPa", c.membrane_MPa},
                   {"membrane_and_bending_MPa", c.surface_MPa},
                   {"differs", c.differs},
                   {"reason", c.reason}});
  }
  return out;
}

Json screw_forces_json(const std::vector<HandScrewForce>& forces) {
  Json out = Json::array();
  for (const HandScrewForce& f : forces) {
    out.push_back({{"screws", f.screws},
                   {"count", f.count},
                   {"pressure_MPa", f.pressure_MPa},
                   {"seal_diameter_mm", f.seal_diameter_mm},
                   {"hand_N", f.hand_N},
                   {"joint_N", f.joint_N},
                   {"preload_N", f.preload_N},
                   {"differs", f.differs}});
  }
  return out;
}

Json hand_calculation_json(const RunResult& result) {
  if (!result.hand_calculation) return nullptr;
  const HandCalculationResult& hand = *result.hand_calculation;
  Json chain = Json::array();
  for (const ChainStep& step : hand.chain) {
    chain.push_back({{"from", step.from}, {"to", step.to}, {"ratio", step.ratio}});
  }
  return {{"shape", hand.shape},
          {"formula", hand.formula},
          {"stress_MPa", hand.stress_MPa},
          {"safety_factor", hand.safety_factor},
          {"strength", hand.strength},
          {"isotropic_with_build_strength", json_range(hand.isotropic_with_Z)},
          {"chain", chain},
          {"sentence", hand.sentence},
          {"comparisons", comparisons_json(hand.comparisons)},
          {"screw_forces", screw_forces_json(hand.screw_forces)}};
}

Json buckling_json(const BucklingResult& buckling) {
  return {{"applies", buckling.applies},
          {"checked", buckling.checked},
          {"critical_pressure_MPa", json_number(buckling.critical_pressure_MPa)},
          {"factor", json_number(buckling.factor)},
          {"statement", buckling.statement}};
}

Json balance_json(const BalanceReport& balance) {
  return {
      {"force_error", balance.force_error},   {"moment_error", balance.moment_error},
      {"residual", balance.residual},         {"energy_error", json_number(balance.energy_error)},
      {"volume_error", balance.volume_error}, {"carried_by_inertia", balance.carried_by_inertia}};
}

Json mesh_passes_json(const std::vector<MeshPass>& passes) {
  Json out = Json::array();
  for (const MeshPass& pass : passes) {
    const auto& error = pass.error;
    out.push_back({{"unknowns", pass.unknowns},
                   {"safety_factor",
                    json_number(pass.governing ? pass.governing->factor.value : std::nullopt)},
                   {"safety_factor_error", error ? Json(error->factor) : nullptr},
                   {"energy_error_fraction", error ? Json(error->energy) : nullptr},
                   {"mean_edge_at_place_mm", pass.place ? Json(pass.place->mean_edge_mm) : nullptr},
                   {"seconds", pass.seconds}});
  }
  return out;
}

Json mesh_report_json(const RunOutputs& outputs) {
  const TetrahedronMesh& mesh = outputs.meshed.mesh;
  const MeshReport& report = outputs.result.mesh_report;
  Json thin = Json::array();
  for (const ThinPlace& place : report.thin_places) {
    thin.push_back({{"face", number(place.face)},
                    {"position_mm", json_vector(place.position)},
                    {"wall_mm", place.wall},
                    {"layers", place.layers}});
  }
  return {{"unknowns", mesh.unknowns()},
          {"nodes", mesh.node_count()},
          {"tetrahedra", mesh.tetrahedron_count()},
          {"layers_min", report.layers_min},
          {"wall_min_mm", report.wall_min_mm},
          {"thin_places", thin},
          {"remedies", report.remedies},
          {"curved_elements_straightened", report.curved_elements_straightened},
          {"min_scaled_jacobian", report.min_scaled_jacobian},
          {"volume_mm3", report.volume_mm3},
          {"cad_volume_mm3", report.cad_volume_mm3},
          {"passes", mesh_passes_json(outputs.result.mesh_passes)},
          {"extrapolated_safety_factor", json_number(outputs.result.extrapolated_factor)},
          {"refining_ended", outputs.result.refining_ended}};
}

Json solve_json(const SolveReport& solve) {
  return {{"method", solve.method},
          {"unknowns", solve.unknowns},
          {"iterations", solve.iterations},
          {"relative_residual", solve.relative_residual}};
}

Json stored_energy_json(const std::optional<StoredEnergy>& energy) {
  if (!energy) return nullptr;
  return {{"total", energy->total_J()},
          {"fluid", energy->fluid_J},
          {"wall", energy->wall_J},
          {"unbled_air", energy->unbled_air_J}};
}

Json governing_place_json(const std::optional<GoverningPlace>& place) {
  if (!place) return nullptr;
  return {{"bead_width_mm", place->bead_width_mm},
          {"mean_edge_mm", place->mean_edge_mm},
          {"converged", place->converged()},
          {"inner_edge", place->inner_edge ? Json(number(*place->inner_edge)) : nullptr},
          {"factor_at_resolved_place_alike", json_number(place->resolved_alike)},
          {"raw_safety_factor", place->raw ? json_number(place->raw->factor.value) : nullptr},
          {"raw_position_mm", place->raw ? json_vector(place->raw->position) : nullptr}};
}

void add_verdict(Json& out, const RunOutputs& outputs) {
  const RunResult& result = outputs.result;
  out["title"] = result.title;
  out["verdict"] = name_of(result.verdict);
  out["verdict_sentence"] = result.verdict_sentence;
  out["distrust"] = result.distrust;
  out["warnings"] = all_warnings(outputs);
  out["target_safety_factor"] = result.targets.safety_factor;
  out["safety_factor"] = json_range(result.factor);
  out["pressure_factor"] = json_range(result.pressure_factor);
  out["governing"] = governing_json(result);
  out["safety_factor_mesh_error"] = result.mesh_error ? Json(result.mesh_error->factor) : nullptr;
  out["governing_place"] = governing_place_json(result.governing_place);
  out["stress_basis"] = result.governing ? result.governing->stress_basis : "bead";
}

void add_pressures(Json& out, const RunResult& result) {
  out["working_pressure_MPa"] = json_number(result.working_pressure_MPa);
  out["allowable_pressure_MPa"] = json_number(result.allowable_pressure_MPa);
  out["allowable_pressure_low_MPa"] = json_number(result.allowable_pressure_low_MPa);
  out["allowable_pressure_high_MPa"] = json_number(result.allowable_pressure_high_MPa);
  out["allowable_limited_by"] = result.allowable_limited_by;
  out["proof_pressure_MPa"] = json_number(result.proof_pressure_MPa);
  out["proof_breaks_limit"] = result.proof_breaks_limit;
  out["proof_statement"] = result.proof_statement;
  out["cavity_volume_mm3"] = json_number(result.cavity_volume_mm3);
  out["stored_energy_J"] = stored_energy_json(result.stored_energy);
}

}  // namespace

std::string summary_json(const RunOutputs& outputs) {
  const RunResult& result = outputs.result;
  Json out;
  out["schema_version"] = summary_schema_version;
  out["program_version"] = result.program_version;
  add_verdict(out, outputs);
  add_pressures(out, result);
  out["displacement_max_mm"] = result.displacement_max_mm;
  out["strain_energy_mJ"] = result.strain_energy_mJ;
  out["load_cases"] = load_cases_json(result);
  out["bodies"] = bodies_json(result);
  out["openings"] = openings_json(result);
  out["reactions"] = reactions_json(result);
  out["probes"] = probes_json(result);
  out["hand_calculation"] = hand_calculation_json(result);
  out["buckling"] = buckling_json(result.buckling);
  out["balance"] = balance_json(result.balance);
  out["mesh"] = mesh_report_json(outputs);
  out["solve"] = solve_json(result.solve_report);
  out["seconds"] = result.seconds;
  out["notes"] = result.notes;
  out["cautions"] = result.cautions;
  out["case_file"] = result.case_file;
  out["settings"] = settings_json(outputs.case_file);
  const bool trusted = result.verdict != Verdict::not_trusted;
  return finished(std::move(out), trusted ? NotANumber::refused : NotANumber::written_as_null);
}

}  // namespace crossgrain
