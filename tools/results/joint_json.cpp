// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_parts_json.h"

namespace crossgrain {
namespace {

Json level_json(const std::optional<PreloadLevel>& level) {
  return level ? Json(words(*level)) : nullptr;
}

std::string_view key_of(LimitStanding standing) {
  switch (standing) {
    case LimitStanding::standard:
      return "standard";
    case LimitStanding::given:
      return "given";
    case LimitStanding::data_sheet:
      return "data_sheet";
    case LimitStanding::memory:
      return "memory";
    default:
      return "estimated";
  }
}

Json line_json(const JointLine& line) {
  return {{"mode", name_of(line.mode)},
          {"owner", line.owner},
          {"holds", line.holds()},
          {"value", line.value},
          {"limit", line.limit.value},
          {"unit", unit_of(line.mode)},
          {"must_reach", must_reach(line.mode)},
          {"used", json_number(line.use())},
          {"state", line.state},
          {"preload", level_json(line.level)},
          {"place_mm", line.place ? json_vector(*line.place) : nullptr},
          {"limit_standing", key_of(line.limit.standing)},
          {"limit_source", line.limit.source},
          {"note", line.note},
          {"remedy", remedy(line.mode)}};
}

Json bound_json(const std::optional<TorqueBound>& bound) {
  if (!bound) return nullptr;
  return {{"over_nominal", bound->torque},
          {"mode", name_of(bound->mode)},
          {"owner", bound->owner},
          {"state", bound->situation},
          {"extrapolated", bound->extrapolated}};
}

Json window_json(const TorqueWindow& window) {
  return {{"empty", window.empty()},
          {"lowest", bound_json(window.lowest)},
          {"highest", bound_json(window.highest)},
          {"never_satisfied", window.never ? Json(name_of(*window.never)) : nullptr}};
}

Json group_json(const GroupTightness& group) {
  return {{"name", group.name},
          {"screws", group.screws},
          {"preload_least_N", group.preload.least},
          {"preload_nominal_N", group.preload.nominal},
          {"preload_greatest_N", group.preload.greatest},
          {"torque_nominal_Nmm", json_number(group.torque)}};
}

Json response_json(const PreloadResponse& response) {
  Json preloads = Json::array(), values = Json::array();
  for (const auto& point : response.points) {
    preloads.push_back(point.preload);
    values.push_back(point.value);
  }
  return {{"mode", name_of(response.mode)},   {"owner", response.owner},
          {"state", response.situation},      {"limit", response.limit},
          {"preload_over_nominal", preloads}, {"value", values}};
}

template <typename Items, typename ToJson>
Json array_json(const Items& items, ToJson to_json) {
  Json out = Json::array();
  for (const auto& item : items) out.push_back(to_json(item));
  return out;
}

}  // namespace

Json joint_json(const RunResult& result) {
  if (!result.joint) return nullptr;
  const JudgedJoint& joint = *result.joint;
  return {{"holds", joint.holds()},
          {"groups", array_json(joint.groups, group_json)},
          {"lines", array_json(joint.lines, line_json)},
          {"torque_window", joint.window ? window_json(*joint.window) : nullptr},
          {"torque_window_by_temperature", array_json(joint.by_temperature,
                                                      [](const TemperatureWindow& at) {
                                                        Json out = window_json(at.window);
                                                        out["temperature_K"] = at.temperature_K;
                                                        return out;
                                                      })},
          {"would_open_the_window", array_json(joint.openers,
                                               [](const OpenerAdvice& advice) {
                                                 return Json{{"name", name_of(advice.opener)},
                                                             {"opens", advice.opens},
                                                             {"words", advice.words}};
                                               })},
          {"responses", array_json(joint.responses, response_json)},
          {"history", joint_history_json(joint.history)}};
}

}  // namespace crossgrain
