// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/joint_changes.h"

#include <algorithm>

namespace crossgrain {
namespace {

// One point among thousands is where the mesh's faces happen to be cut.
constexpr double least_share = 1e-3;
// Of the greatest pressure: less is round-off.
constexpr double no_pressure = 1e-9;

enum class Branch { open, pressed, stopped };

std::vector<Branch> branches(const InterfacePair& pair, const PairState& state) {
  const auto* bedding = std::get_if<Bedding>(&pair.law);
  const double least = no_pressure * state.pressure.cwiseAbs().maxCoeff();
  std::vector<Branch> branches;
  for (Eigen::Index p = 0; p < state.pressure.size(); ++p) {
    if (bedding && -state.gap[p] >= bedding->stop_squeeze)
      branches.push_back(Branch::stopped);
    else
      branches.push_back(std::abs(state.pressure[p]) > least ? Branch::pressed : Branch::open);
  }
  return branches;
}

JointChange change_of(const InterfacePair& pair, const PairState& before, const PairState& after) {
  JointChange change{{}, pair.name, 0.0, 0.0, 0.0};
  const auto was = branches(pair, before), is = branches(pair, after);
  double area = 0.0;
  for (std::size_t p = 0; p < pair.points.size(); ++p) {
    const double here = pair.points[p].area;
    area += here;
    if (was[p] == is[p]) continue;
    if (is[p] == Branch::open)
      change.opened += here;
    else if (was[p] == Branch::open)
      change.closed += here;
    if (is[p] == Branch::stopped || was[p] == Branch::stopped) change.stop += here;
  }
  for (double* share : {&change.opened, &change.closed, &change.stop}) *share /= area;
  return change;
}

double size_of(const JointChange& change) {
  return std::max({change.opened, change.closed, change.stop});
}

bool counts(const Loading& loading, std::size_t state) {
  return std::ranges::any_of(loading.cases, [&](const LoadCase& load_case) {
    return load_case.held[state] != 0.0 || load_case.scaling[state] != 0.0;
  });
}

}  // namespace

std::vector<JointChange> joint_changes(const Loading& loading,
                                       const std::vector<JointSolution>& before,
                                       const std::vector<JointSolution>& after) {
  std::vector<JointChange> changes;
  if (!loading.joined) return changes;
  const auto& pairs = loading.joined->joint.pairs;
  for (std::size_t p = 0; p < pairs.size(); ++p) {
    if (std::holds_alternative<Tied>(pairs[p].law) || pairs[p].points.empty()) continue;
    JointChange greatest{{}, pairs[p].name, 0.0, 0.0, 0.0};
    for (std::size_t i = 0; i < before.size(); ++i) {
      if (!counts(loading, i)) continue;
      JointChange change = change_of(pairs[p], before[i].pairs[p], after[i].pairs[p]);
      change.state = loading.joined->states[i].name;
      if (size_of(change) > size_of(greatest)) greatest = std::move(change);
    }
    if (size_of(greatest) > least_share) changes.push_back(std::move(greatest));
  }
  return changes;
}

}  // namespace crossgrain
