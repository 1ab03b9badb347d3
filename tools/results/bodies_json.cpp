// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_parts_json.h"

namespace crossgrain {
namespace {

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

}  // namespace

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

}  // namespace crossgrain
