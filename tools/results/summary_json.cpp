// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_json.h"

#include "cases/case_file/case_settings.h"
#include "cases/judgement/constant_effects.h"
#include "tools/results/summary_parts_json.h"
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

Json buckling_json(const BucklingResult& buckling) {
  return {{"applies", buckling.applies},
          {"checked", buckling.checked},
          {"critical_pressure_MPa", json_number(buckling.critical_pressure_MPa)},
          {"factor", json_number(buckling.factor)},
          {"statement", buckling.statement}};
}

Json balance_json(const BalanceReport& balance) {
  Json bodies = Json::array();
  for (const BodyBalance& body : balance.bodies)
    bodies.push_back({{"name", body.name},
                      {"volume_mm3", body.volume_mm3},
                      {"cad_volume_mm3", body.cad_volume_mm3},
                      {"mass_g", body.mass_g},
                      {"cad_mass_g", body.cad_mass_g}});
  return {{"force_error", balance.force_error},
          {"moment_error", balance.moment_error},
          {"residual", balance.residual},
          {"energy_error", json_number(balance.energy_error)},
          {"volume_error", balance.volume_error},
          {"carried_by_inertia", balance.carried_by_inertia},
          {"bodies", bodies}};
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
          {"other_edge", place->other_edge ? Json(number(*place->other_edge)) : nullptr},
          {"factor_at_resolved_place_alike", json_number(place->resolved_alike)},
          {"raw_safety_factor", place->raw ? json_number(place->raw->factor.value) : nullptr},
          {"raw_position_mm", place->raw ? json_vector(place->raw->position) : nullptr}};
}

Json constant_effects_json(const RunResult& result) {
  Json out = Json::array();
  for (const ConstantEffect& effect : result.constant_effects)
    out.push_back({{"constant", effect.constant.name},
                   {"card", effect.card},
                   {"meaning", effect.constant.meaning},
                   {"unit", effect.constant.unit},
                   {"value", effect.constant.range.value},
                   {"low", effect.constant.range.low},
                   {"high", effect.constant.range.high},
                   {"safety_factor_at_low", json_number(effect.at_low)},
                   {"safety_factor_at_high", json_number(effect.at_high)},
                   {"found_by", name_of(effect.basis)}});
  return out;
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
  out["constant_effects"] = constant_effects_json(result);
  out["governing"] = governing_json(result);
  out["safety_factor_mesh_error"] = result.mesh_error ? Json(result.mesh_error->factor) : nullptr;
  out["governing_place"] = governing_place_json(result.governing_place);
  out["hidden_beside_support_mm"] =
      result.hidden_zone ? json_vector(result.hidden_zone->at_support.position) : Json(nullptr);
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
  out["joint"] = joint_json(result);
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
