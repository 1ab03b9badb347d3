// SPDX-License-Identifier: GPL-3.0-or-later
#include <numbers>

#include "tools/results/summary_parts_json.h"

namespace crossgrain {
namespace {

Json places_json(const std::vector<Eigen::Vector3d>& places) {
  Json out = Json::array();
  for (const Eigen::Vector3d& place : places) out.push_back(json_vector(place));
  return out;
}

/// Numbers by owner, one list each.
Json lists_json(const std::vector<std::vector<double>>& lists) {
  Json out = Json::array();
  for (const auto& list : lists) {
    Json numbers = Json::array();
    for (const double value : list) numbers.push_back(json_number(value));
    out.push_back(std::move(numbers));
  }
  return out;
}

Json degrees(double angle) { return 180.0 / std::numbers::pi * angle; }

Json seal_json(const JointHistory::Seal& seal) {
  Json angles = Json::array(), places = Json::array();
  for (const auto& station : seal.round.stations) {
    angles.push_back(degrees(station.angle));
    places.push_back(json_vector(station.position));
  }
  return {{"name", seal.name}, {"angle_deg", angles}, {"position_mm", places}};
}

/// @param first_seal  whose angles the screws are told by; none: no seal
Json screws_json(const JointHistory::Screws& group, const JointHistory::Seal* first_seal) {
  Json angles = Json::array();
  if (first_seal != nullptr) {
    for (const Eigen::Vector3d& seat : group.seats)
      angles.push_back(degrees(first_seal->round.angle_of(seat)));
  }
  return {{"name", group.name}, {"seat_mm", places_json(group.seats)}, {"angle_deg", angles}};
}

Json state_json(const JointHistory::State& state) {
  Json wanted = Json::array(), forces = Json::array();
  std::vector<std::vector<double>> bows;
  for (const auto& spans : state.spans) {
    bows.emplace_back();
    for (const SpanBow& span : spans) bows.back().push_back(span.bow());
  }
  for (const double contact : state.contact_wanted) wanted.push_back(contact);
  for (const double force : state.seal_force) forces.push_back(json_number(force));
  return {{"name", state.situation},
          {"preload", words(state.level)},
          {"preload_over_nominal", state.preload},
          {"temperature_K", state.temperature_K},
          {"fluid_pressure_MPa", state.fluid_pressure},
          {"screw_force_N", lists_json(state.forces)},
          {"contact_MPa", lists_json(state.contact)},
          {"contact_wanted_MPa", wanted},
          {"seal_force_N", forces},
          {"flange_bow_mm", lists_json(bows)}};
}

}  // namespace

Json joint_history_json(const JointHistory& history) {
  Json groups = Json::array(), seals = Json::array(), states = Json::array();
  const JointHistory::Seal* first = history.seals.empty() ? nullptr : &history.seals.front();
  for (const auto& group : history.groups) groups.push_back(screws_json(group, first));
  for (const auto& seal : history.seals) seals.push_back(seal_json(seal));
  for (const auto& state : history.states) states.push_back(state_json(state));
  return {{"screws", groups}, {"seals", seals}, {"states", states}};
}

}  // namespace crossgrain
