// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_json.h"
#include "tools/results/summary_parts_json.h"

namespace crossgrain {
namespace {

Json followed_json(const std::optional<FollowedWay>& followed) {
  if (!followed) return nullptr;
  return {{"straight_line_factor", json_number(followed->straight_line)},
          {"multiple", followed->multiple},
          {"unsettled", followed->unsettled}};
}

Json load_case_json(const CaseResult& load_case, const CaseFileNames& files) {
  return {{"name", load_case.name},
          {"kind", name_of(load_case.kind)},
          {"bound", load_case.bound},
          {"safety_factor", json_judgement(load_case.all_loads)},
          {"pressure_factor", json_judgement(load_case.scaling_loads)},
          {"followed", followed_json(load_case.followed)},
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

}  // namespace

Json load_cases_json(const RunResult& result) {
  const std::vector<CaseFileNames> files = case_file_names(result);
  Json out = Json::array();
  for (std::size_t i = 0; i < result.cases.size(); ++i)
    out.push_back(load_case_json(result.cases[i], files[i]));
  return out;
}

}  // namespace crossgrain
