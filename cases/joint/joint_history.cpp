// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/joint_history.h"

#include "cases/joint/seal_lines.h"

namespace crossgrain {
namespace {

double contact_wanted(const SealFacts& seal, const JointStateFacts& state) {
  if (state.fluid_pressure > 0.0)
    return contact_in_service(state.fluid_pressure, seal.constants.m, seal.margin);
  return state.tightening ? seal.at_assembly.pressure : 0.0;
}

double force_on(const std::vector<SealPoint>& places) {
  double force = 0.0;
  for (const SealPoint& place : places) force += place.area * place.contact;
  return force;
}

}  // namespace

JointHistory joint_history(const std::vector<ScrewGroupFacts>& groups,
                           const std::vector<SealFacts>& seals,
                           const std::vector<JointStateFacts>& states) {
  JointHistory history;
  for (const auto& group : groups) history.groups.push_back({group.name, group.seats});
  for (const auto& seal : seals) history.seals.push_back({seal.name, seal_round(seal.points)});
  for (const JointStateFacts& state : states) {
    JointHistory::State seen{};
    seen.situation = state.situation;
    seen.level = state.level;
    seen.preload = state.preload;
    seen.temperature_K = state.temperature_K;
    seen.fluid_pressure = state.fluid_pressure;
    for (const auto& group : state.screws) seen.forces.push_back(group.forces);
    for (std::size_t i = 0; i < seals.size(); ++i) {
      const auto places = pressed_places(seals[i], state.contact[i]);
      seen.contact.push_back(contact_round(history.seals[i].round, places, seals[i].width));
      seen.seal_force.push_back(force_on(places));
      seen.contact_wanted.push_back(contact_wanted(seals[i], state));
      seen.spans.push_back(state.gap.empty()
                               ? std::vector<SpanBow>{}
                               : span_bows(seals[i].points, state.gap[i], seals[i].screws));
    }
    history.states.push_back(std::move(seen));
  }
  return history;
}

}  // namespace crossgrain
