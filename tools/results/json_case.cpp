// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/json_parts.h"

namespace crossgrain {
namespace {

constexpr double kelvin_at_0_degC = 273.15;

Json body_json(const BodySpec& body) {
  return {{"name", body.name},         {"step_file", body.step_file.filename().string()},
          {"material", body.material}, {"print_direction", json_vector(body.print_direction)},
          {"scale", body.scale},       {"bead_width_mm", json_number(body.bead_width)}};
}

Json conditions_json(const Conditions& conditions) {
  const ServiceConditions& service = conditions.service;
  return {{"temperature_degC", service.temperature_K - kelvin_at_0_degC},
          {"moisture", service.moisture == Moisture::dry ? "dry" : "conditioned"},
          {"duration_s", service.duration_s},
          {"cycles", service.cycles},
          {"medium", conditions.medium == Medium::gas ? "gas" : "liquid"},
          {"medium_name", conditions.medium_name}};
}

Json pressure_json(const PressureLoad& load) {
  Json head = nullptr;
  if (load.head) {
    head = {{"density_kg_m3", load.head->density * 1e12},
            {"free_surface_mm", load.head->free_surface},
            {"up", json_vector(load.head->up)}};
  }
  return {{"name", load.name},
          {"value_MPa", load.value},
          {"faces", load.faces.text},
          {"scales", load.scales},
          {"head", head}};
}

Json force_json(const ForceLoad& load) {
  return {{"name", load.name},
          {"force_N", json_vector(load.force)},
          {"moment_Nmm", json_vector(load.moment)},
          {"faces", load.faces.text},
          {"scales", load.scales}};
}

Json bolt_json(const BoltSpec& bolt) {
  return {{"name", bolt.name},
          {"size", bolt.size},
          {"preload_min_N", bolt.preload_min},
          {"preload_nominal_N", bolt.preload_nominal},
          {"preload_max_N", bolt.preload_max},
          {"preload_source", bolt.preload_source}};
}

Json support_json(const SupportSpec& support) {
  const char* hold = support.hold == Hold::all      ? "all"
                     : support.hold == Hold::normal ? "normal"
                                                    : "direction";
  return {{"name", support.name},
          {"hold", hold},
          {"direction",
           support.hold == Hold::direction ? json_vector(support.direction) : Json(nullptr)},
          {"faces", support.faces.text}};
}

Json targets_json(const Targets& targets) {
  return {{"safety_factor", targets.safety_factor},
          {"proof_factor", targets.proof_factor},
          {"proof_duration_s", targets.proof_duration_s},
          {"criterion",
           targets.criterion == Criterion::interactive ? "interactive" : "maximum_stress"}};
}

Json mesh_json(const MeshOptions& mesh) {
  return {{"layers", mesh.layers},
          {"size_mm", json_number(mesh.size)},
          {"size_min_mm", json_number(mesh.size_min)},
          {"elements_per_turn", mesh.elements_per_turn},
          {"refinement", mesh.refinement},
          {"file", mesh.mesh_file ? Json(mesh.mesh_file->filename().string()) : Json(nullptr)}};
}

template <class Item, class Convert>
Json list(const std::vector<Item>& items, const Convert& convert) {
  Json out = Json::array();
  for (const Item& item : items) out.push_back(convert(item));
  return out;
}

}  // namespace

Json json_case(const RunOutputs& outputs) {
  const CaseFile& asked = outputs.case_file;
  const auto acceleration = [](const AccelerationLoad& load) -> Json {
    return {{"name", load.name},
            {"acceleration_mm_s2", json_vector(load.acceleration)},
            {"scales", load.scales}};
  };
  const auto temperature = [](const TemperatureLoad& load) -> Json {
    return {{"name", load.name}, {"change_K", load.change}, {"scales", load.scales}};
  };
  const auto gasket = [](const GasketSpec& seal) -> Json {
    return {{"name", seal.name},
            {"bolts", seal.bolts},
            {"pressure", seal.pressure},
            {"faces", seal.faces.text}};
  };
  const auto load_case = [](const LoadCaseSpec& combination) -> Json {
    Json factors = Json::array();
    for (const auto& [load, factor] : combination.factors)
      factors.push_back({{"load", load}, {"factor", factor}});
    return {{"name", combination.name}, {"factors", factors}};
  };
  return {{"bodies", list(asked.bodies, body_json)},
          {"conditions", conditions_json(asked.conditions)},
          {"pressures", list(asked.pressures, pressure_json)},
          {"forces", list(asked.forces, force_json)},
          {"accelerations", list(asked.accelerations, acceleration)},
          {"temperature_changes", list(asked.temperatures, temperature)},
          {"bolts", list(asked.bolts, bolt_json)},
          {"gaskets", list(asked.gaskets, gasket)},
          {"supports", list(asked.supports, support_json)},
          {"load_cases", list(asked.load_cases, load_case)},
          {"targets", targets_json(asked.targets)},
          {"mesh", mesh_json(asked.mesh)}};
}

}  // namespace crossgrain
