// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/joint_states.h"

#include <stdexcept>

namespace crossgrain {
namespace {

/// Of the seats of a screw, the mean of both [K].
double warming(const ElasticScrew& screw, const Eigen::VectorXd& change) {
  double sum = 0.0;
  if (change.size() == 0) return sum;
  for (const AreaMotion* seat : {&screw.head, &screw.thread})
    for (const auto& share : seat->shares) sum += 0.5 * share.weight * change[share.node];
  return sum;
}

/// Of both faces of a pair, the mean over what meets [K].
double warming(const InterfacePair& pair, const TetrahedronMesh& mesh,
               const Eigen::VectorXd& change) {
  double sum = 0.0, area = 0.0;
  if (change.size() == 0) return sum;
  for (const InterfacePoint& point : pair.points) {
    area += point.area;
    for (const InterfaceSide& side : point.sides)
      for (int a = 0; a < 6; ++a)
        sum += 0.5 * point.area * side.shape[a] * change[mesh.triangles(a, side.triangle)];
  }
  return area > 0.0 ? sum / area : 0.0;
}

/// @param locked  the state in which the screws were locked; null: they are being tightened.
std::vector<ScrewCommand> commands(const JoinedBodies& joined, const JointStateSpec& state,
                                   const Eigen::VectorXd& change, const JointSolution* tightened) {
  std::vector<ScrewCommand> commands;
  for (const JoinedScrews& group : joined.screws) {
    for (std::size_t s = group.first; s < group.first + group.count; ++s) {
      if (!tightened) {
        const double left = state.after_loss ? group.kept : 1.0;
        commands.push_back({true, left * preload_at(group.preload, state.preload)});
        continue;
      }
      ScrewCommand command =
          locked(tightened->screws[s], warming(joined.joint.screws[s], change) * group.expansion);
      if (state.after_loss) command.expansion += group.embedding;
      commands.push_back(command);
    }
  }
  return commands;
}

JointLoad load_of(const TetrahedronMesh& mesh, const JoinedBodies& joined,
                  const JointStateSpec& state, const JointSolution* tightened) {
  const ElementaryLoad outside = outside_load(joined, state);
  JointLoad load;
  load.forces = outside.nodal_forces;
  load.screws = commands(joined, state, outside.temperature_change, tightened);
  for (const JoinedFluid& fluid : joined.fluids) {
    const double pressure = state.acting[fluid.acting] * fluid.pressure;
    if (pressure > 0.0) load.fluids.push_back({pressure, fluid.wetted_nodes});
  }
  for (std::size_t pair = 0; pair < joined.joint.pairs.size(); ++pair) {
    const double warmer = warming(joined.joint.pairs[pair], mesh, outside.temperature_change);
    load.clearance_change.push_back(-warmer * joined.gasket_growth[pair]);
  }
  return load;
}

/// @throws std::runtime_error naming the state.
JointSolution solved_state(JointSolver& joint, const TetrahedronMesh& mesh,
                           const JoinedBodies& joined, const JointStateSpec& state,
                           const JointSolution* tightened, const JointSolution* from) {
  try {
    return joint.solve(load_of(mesh, joined, state, tightened), from);
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
    solutions[i] = solved_state(joint, mesh, joined, state, tightened, from);
    before = &solutions[i];
  }
  return solutions;
}

FrozenJoint frozen_state(const TetrahedronMesh& mesh, const JoinedBodies& joined,
                         const std::vector<JointSolution>& solved, std::size_t state) {
  const JointStateSpec& spec = joined.states[state];
  const JointSolution* tightened = spec.locked_in ? &solved[*spec.locked_in] : nullptr;
  return frozen_joint(mesh, joined.joint, load_of(mesh, joined, spec, tightened), solved[state]);
}

std::vector<FrozenJoint> frozen_states(const TetrahedronMesh& mesh, const JoinedBodies& joined,
                                       const std::vector<JointSolution>& solved) {
  std::vector<FrozenJoint> frozen;
  for (std::size_t i = 0; i < joined.states.size(); ++i)
    frozen.push_back(frozen_state(mesh, joined, solved, i));
  return frozen;
}

JointSolution solve_on_way(StaticSolver& solver, const TetrahedronMesh& mesh,
                           const JoinedBodies& joined, const std::vector<JointSolution>& solved,
                           const JointWay& way) {
  const JointStateSpec& from = joined.states[way.from];
  JointStateSpec state = joined.states[way.to];
  for (std::size_t i = 0; i < state.acting.size(); ++i)
    state.acting[i] = from.acting[i] + way.multiple * (state.acting[i] - from.acting[i]);
  JointSolver joint(mesh, solver, joined.joint);
  return solved_state(joint, mesh, joined, state,
                      state.locked_in ? &solved[*state.locked_in] : nullptr, &solved[way.to]);
}

}  // namespace crossgrain
