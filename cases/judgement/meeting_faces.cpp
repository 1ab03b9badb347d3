// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/meeting_faces.h"

#include <algorithm>
#include <cassert>
#include <map>

#include "cases/judgement/verdict_sentence.h"

namespace crossgrain {
namespace {

/// Sums over the points of one triangle.
struct Sums {
  double area = 0.0, force = 0.0, gap = 0.0, fluid = 0.0;
  double open = 0.0, stopped = 0.0;  ///< of the area
};

/// A gasket that sticks to both faces holds them in shear even where it is not pressed.
bool is_open(const InterfaceLaw& law, double pressure, double gap) {
  return std::holds_alternative<Bedding>(law) ? gap >= 0.0 : !(pressure > 0.0);
}

bool on_stop(const InterfaceLaw& law, double gap) {
  const auto* bedding = std::get_if<Bedding>(&law);
  return bedding != nullptr && -gap > bedding->stop_squeeze;
}

MeetingState state_of(const InterfaceLaw& law, const Sums& sums) {
  if (std::holds_alternative<Tied>(law)) return MeetingState::tied;
  if (sums.open == sums.area) return MeetingState::open;
  if (sums.open > 0.0) return MeetingState::partly_open;
  return 2.0 * sums.stopped > sums.area ? MeetingState::on_stop : MeetingState::pressed;
}

void add_side(int side, const InterfacePair& pair, const PairState& state, MeetingFaces& meeting) {
  std::map<int, Sums> of_triangle;
  for (std::size_t i = 0; i < pair.points.size(); ++i) {
    const auto p = static_cast<Eigen::Index>(i);
    const double area = pair.points[i].area;
    Sums& sums = of_triangle[pair.points[i].sides[side - 1].triangle];
    sums.area += area;
    sums.force += area * state.pressure[p];
    sums.gap += area * state.gap[p];
    sums.fluid += area * state.fluid_pressure[p];
    if (is_open(pair.law, state.pressure[p], state.gap[p])) sums.open += area;
    if (on_stop(pair.law, state.gap[p])) sums.stopped += area;
  }
  for (const auto& [triangle, sums] : of_triangle)
    meeting.triangles.push_back({triangle, side, sums.area, sums.force / sums.area,
                                 sums.gap / sums.area, sums.fluid / sums.area,
                                 state_of(pair.law, sums)});
}

/// Of the first of two faces that meet.
struct WetShare {
  double area = 0.0;  ///< that meets the other [mm^2]
  double wet = 0.0;   ///< of it
};

WetShare wet_share(const MeetingFaces& meeting) {
  WetShare share;
  double pushes = 0.0, pressure = 0.0;
  for (const MeetingTriangle& at : meeting.triangles) {
    if (at.side != 1) continue;
    share.area += at.area;
    pushes += at.area * at.fluid_pressure;
    pressure = std::max(pressure, at.fluid_pressure);
  }
  if (pressure > 0.0) share.wet = pushes / (pressure * share.area);
  return share;
}

}  // namespace

std::string_view name_of(MeetingState state) {
  switch (state) {
    case MeetingState::open:
      return "open";
    case MeetingState::partly_open:
      return "partly_open";
    case MeetingState::pressed:
      return "pressed";
    case MeetingState::on_stop:
      return "on_stop";
    case MeetingState::tied:
      return "tied";
  }
  return "";
}

std::vector<MeetingFaces> meeting_faces(const LoadCase& load_case, const JoinedBodies& joined,
                                        const ElementarySolution& solution) {
  const std::vector<double> counts = load_case.together();
  const auto counted = std::ranges::find_if(counts, [](double count) { return count != 0.0; });
  assert(counted != counts.end() && *counted == 1.0);
  const auto& states = solution.joint_states[counted - counts.begin()].pairs;
  std::vector<MeetingFaces> meetings;
  for (std::size_t p = 0; p < joined.joint.pairs.size(); ++p) {
    const InterfacePair& pair = joined.joint.pairs[p];
    meetings.push_back({pair.name, {}});
    for (const int side : {1, 2}) add_side(side, pair, states[p], meetings.back());
  }
  return meetings;
}

std::vector<std::string> flooded_contacts(const std::vector<ContactSpec>& contacts,
                                          const std::vector<CaseResult>& cases) {
  std::vector<std::string> warnings;
  for (std::size_t c = 0; c < contacts.size(); ++c) {
    WetShare most;
    std::string when;
    for (const CaseResult& result : cases) {
      const WetShare share = wet_share(result.meetings.at(c));
      if (!(share.wet > most.wet)) continue;
      most = share;
      when = case_title(result.name, result.bound);
    }
    if (!(most.wet > 0.0)) continue;
    warnings.push_back("Fluid comes between the faces of contact '" + contacts[c].name + "' on " +
                       three_digits(100.0 * most.wet) + " % of " + three_digits(most.area) +
                       " mm^2, where they press on each other less than it does, and pushes them "
                       "apart there (load case " +
                       when +
                       "); joint.pvd shows where. Only a gasket's seal is judged: nothing here "
                       "says that the fluid stays inside.");
  }
  return warnings;
}

}  // namespace crossgrain
