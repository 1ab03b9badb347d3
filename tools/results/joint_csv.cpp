// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/joint_csv.h"

#include <fmt/format.h>

#include "tools/results/plain_text.h"

namespace crossgrain {
namespace {

/// "service,least,0.62,296.15,0.4", what all rows of a state begin with.
std::string state_cells(const JointHistory::State& state) {
  return fmt::format("{},{},{},{},{}", csv_field(state.situation), words(state.level),
                     state.preload, state.temperature_K, state.fluid_pressure);
}

/// "12.5,0,18"; empty cells where nobody knows.
std::string place_cells(const Eigen::Vector3d* place) {
  return place == nullptr ? ",," : fmt::format("{},{},{}", place->x(), place->y(), place->z());
}

}  // namespace

std::string joint_csv(const JointHistory& history) {
  std::string out =
      "state,preload,preload_over_nominal,temperature_K,fluid_pressure_MPa,what,of,number,"
      "x_mm,y_mm,z_mm,value,unit\n";
  const auto add = [&](const std::string& cells, const char* what, const std::string& owner,
                       std::size_t number, const Eigen::Vector3d* place, double value,
                       const char* unit) {
    out += fmt::format("{},{},{},{},{},{},{}\n", cells, what, csv_field(owner), number + 1,
                       place_cells(place), value, unit);
  };
  for (const JointHistory::State& state : history.states) {
    const std::string cells = state_cells(state);
    for (std::size_t g = 0; g < history.groups.size(); ++g) {
      const auto& seats = history.groups[g].seats;
      for (std::size_t i = 0; i < state.forces[g].size(); ++i)
        add(cells, "screw force", history.groups[g].name, i, i < seats.size() ? &seats[i] : nullptr,
            state.forces[g][i], "N");
    }
    for (std::size_t s = 0; s < history.seals.size(); ++s) {
      const auto& stations = history.seals[s].round.stations;
      for (std::size_t i = 0; i < stations.size(); ++i)
        add(cells, "seal contact", history.seals[s].name, i, &stations[i].position,
            state.contact[s][i], "MPa");
      const auto& spans = state.spans[s];
      for (std::size_t i = 0; i < spans.size(); ++i)
        add(cells, "flange bow", history.seals[s].name, i, &spans[i].middle, spans[i].bow(), "mm");
    }
  }
  return out;
}

}  // namespace crossgrain
