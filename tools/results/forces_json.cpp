// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_parts_json.h"

namespace crossgrain {

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

}  // namespace crossgrain
