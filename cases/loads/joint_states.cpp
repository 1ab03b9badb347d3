// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/joint_states.h"

#include <stdexcept>

namespace crossgrain {
namespace {

/// Of a change of temperature that is the same everywhere [K].
double warming(const ElementaryLoad& outside) {
  return outside.temperature_change.size() > 0 ? outside.temperature_change.mean() : 0.0;
}

/// @param locked  the state in which the screws were locked; null: they are being tightened.
std::vector<ScrewCommand> commands(const JoinedBodies& joined, const JointStateSpec& state,
                                   double warming, const JointSolution* tightened) {
  std::vector<ScrewCommand> commands;
  for (const JoinedScrews& group : joined.screws) {
    for (std::size_t s = group.first; s < group.first + group.count; ++s) {
      if (!tightened) {
        const double left = state.after_loss ? group.kept : 1.0;
        commands.push_back({true, left * preload_at(group.preload, state.preload)});
        continue;
      }
      ScrewCommand command = locked(tightened->screws[s], warming * group.expansion);
      if (state.after_loss) command.expansion += group.embedding;
      commands.push_back(command);
    }
  }
  return commands;
}

JointLoad load_of(const JoinedBodies& joined, const JointStateSpec& state,
                  const JointSolution* tightened) {
  const ElementaryLoad outside = outside_load(joined, state);
  const double warmer = warming(outside);
  JointLoad load;
  load.forces = outside.nodal_forces;
  load.screws = commands(joined, state, warmer, tightened);
  for (const JoinedFluid& fluid : joined.fluids) {
    const double pressure = state.acting[fluid.acting] * fluid.pressure;
    if (pressure > 0.0) load.fluids.push_back({pressure, fluid.wetted_nodes});
  }
  for (const double growth : joined.gasket_growth) {
    load.clearance_change.push_back(-warmer * growth);
  }
  return load;
}

/// @throws std::runtime_error naming the state.
JointSolution solved_state(JointSolver& joint, const JoinedBodies& joined,
                           const JointStateSpec& state, const JointSolution* tightened,
                           const JointSolution* from) {
  try {
    return joint.solve(load_of(joined, state, tightened), from);
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("joint, " + state.name + ": " + error.what());
  }
}

}  // namespace

ElementaryLoad outside_load(const JoinedBodies& joined, const JointStateSpec& state) {
  ElementaryLoad outside;
  outside.name = state.name;
  outside.nodal_forces =
      Eigen::VectorXd::Zero(joined.acting.empty() ? 0 : joined.acting.front().nodal_forces.size());
  for (std::size_t i = 0; i < joined.acting.size(); ++i) {
    const double count = state.acting[i];
    if (count == 0.0) continue;
    const ElementaryLoad& load = joined.acting[i];
    outside.nodal_forces += count * load.nodal_forces;
    if (load.temperature_change.size() == 0) continue;
    if (outside.temperature_change.size() == 0) {
      outside.temperature_change = Eigen::VectorXd::Zero(load.temperature_change.size());
    }
    outside.temperature_change += count * load.temperature_change;
  }
  return outside;
}

std::vector<JointSolution> solve_states(StaticSolver& solver, const TetrahedronMesh& mesh,
                                        const JoinedBodies& joined, std::vector<bool> wanted,
                                        const Eigen::MatrixXd* start) {
  JointSolver joint(mesh, solver, joined.joint);
  for (std::size_t i = 0; i < joined.states.size(); ++i)
    if (wanted[i] && joined.states[i].locked_in) wanted[*joined.states[i].locked_in] = true;
  std::vector<JointSolution> solutions(joined.states.size());
  const JointSolution* before = nullptr;
  for (std::size_t i = 0; i < joined.states.size(); ++i) {
    const JointStateSpec& state = joined.states[i];
    if (!wanted[i]) {
      solutions[i].displacement = Eigen::VectorXd::Zero(mesh.unknowns());
      solutions[i].forces = solutions[i].displacement;
      continue;
    }
    const JointSolution* tightened = state.locked_in ? &solutions[*state.locked_in] : nullptr;
    const JointSolution* from = tightened ? tightened : before;
    JointSolution nearby;
    if (start) {
      if (from) nearby = *from;
      nearby.displacement = start->col(static_cast<Eigen::Index>(i));
      from = &nearby;
    }
    solutions[i] = solved_state(joint, joined, state, tightened, from);
    before = &solutions[i];
  }
  return solutions;
}

JointSolution solve_on_way(StaticSolver& solver, const TetrahedronMesh& mesh,
                           const JoinedBodies& joined, const std::vector<JointSolution>& solved,
                           const JointWay& way) {
  const JointStateSpec& from = joined.states[way.from];
  JointStateSpec state = joined.states[way.to];
  for (std::size_t i = 0; i < state.acting.size(); ++i)
    state.acting[i] = from.acting[i] + way.multiple * (state.acting[i] - from.acting[i]);
  JointSolver joint(mesh, solver, joined.joint);
  return solved_state(joint, joined, state, state.locked_in ? &solved[*state.locked_in] : nullptr,
                      &solved[way.to]);
}

}  // namespace crossgrain
