// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/limit_parts.h"

#include <algorithm>

#include "cases/loads/joint_states.h"

namespace crossgrain {
namespace {

std::vector<LimitPart> parts_of_sums(const GoverningState& state, const Loading& loading,
                                     const ElementarySolution& solution) {
  const LoadCase& judged = loading.cases[state.load_case];
  std::vector<LimitPart> parts;
  const auto add = [&](const std::vector<double>& loads, double held, double growing) {
    if (std::ranges::any_of(loads, [](double count) { return count != 0.0; }))
      parts.push_back({sum_of_loads(loads, loading, solution), held, growing, loads});
  };
  add(state.held_apart ? judged.scaling : judged.together(), 0.0, 1.0);
  if (state.held_apart) add(judged.held, 1.0, 0.0);
  return parts;
}

/// Of states, the last first: screws are locked in an earlier one.
std::vector<LimitPart> parts_of_states(const GoverningState& state, const TetrahedronMesh& mesh,
                                       const Loading& loading, const ElementarySolution& solution) {
  const JoinedBodies& joined = *loading.joined;
  const LoadCase& judged = loading.cases[state.load_case];
  std::vector<LimitPart> parts;
  std::vector<std::size_t> state_of_part;
  std::vector<char> wanted(joined.states.size(), 0);
  for (std::size_t i = joined.states.size(); i-- > 0;) {
    const double held = state.held_apart ? judged.held[i] : 0.0;
    const double growing = judged.held[i] + judged.scaling[i] - held;
    if (held == 0.0 && growing == 0.0 && !wanted[i]) continue;
    if (const auto& locked_in = joined.states[i].locked_in) wanted[*locked_in] = 1;
    std::vector<double> only(joined.states.size(), 0.0);
    only[i] = 1.0;
    parts.push_back({sum_of_loads(only, loading, solution), held, growing, joined.states[i].acting,
                     frozen_state(mesh, joined, solution.joint_states, i)});
    state_of_part.push_back(i);
  }
  for (std::size_t p = 0; p < parts.size(); ++p)
    if (const auto& locked_in = joined.states[state_of_part[p]].locked_in)
      parts[p].locked_in = static_cast<std::size_t>(std::ranges::find(state_of_part, *locked_in) -
                                                    state_of_part.begin());
  return parts;
}

}  // namespace

std::vector<LimitPart> limit_parts(const GoverningState& state, const TetrahedronMesh& mesh,
                                   const Loading& loading, const ElementarySolution& solution) {
  return loading.joined ? parts_of_states(state, mesh, loading, solution)
                        : parts_of_sums(state, loading, solution);
}

}  // namespace crossgrain
