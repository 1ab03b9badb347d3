// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/loads/joined_bodies.h"
#include "solver/interface/frozen_joint.h"
#include "solver/interface/joint_solver.h"
#include "solver/static_solver.h"

namespace crossgrain {

/// Solve the states of joined bodies, each from the one it follows.
/// @param solver  with the field's stiffness. It is left with the joint's of the last state.
/// @param wanted  by state; those in which their screws were locked are solved as well.
/// @param start   unknowns x states [mm], where they begin: the answers on a mesh before, or of
/// another material. None: each where the one it follows ended.
/// @return one a state, in their order; what is not wanted does not move.
/// @throws std::runtime_error naming the state whose iteration does not end.
/// @throws std::invalid_argument for a body that nothing holds.
std::vector<JointSolution> solve_states(StaticSolver& solver, const TetrahedronMesh& mesh,
                                        const JoinedBodies& joined, std::vector<bool> wanted,
                                        const Eigen::MatrixXd* start = nullptr);

/// The joint as small changes of a state find it.
/// @param solved  all states.
FrozenJoint frozen_state(const TetrahedronMesh& mesh, const JoinedBodies& joined,
                         const std::vector<JointSolution>& solved, std::size_t state);

/// The same of every state.
std::vector<FrozenJoint> frozen_states(const TetrahedronMesh& mesh, const JoinedBodies& joined,
                                       const std::vector<JointSolution>& solved);

/// The way from one state to another, and beyond.
struct JointWay {
  std::size_t from, to;  ///< states whose screws were locked in one, or `from` is where they were
  double multiple;       ///< 0 at `from`, 1 at `to`
};

/// Solve the state that lies there on the way, its outside loads between those of both or beyond.
/// @param solved  all states.
/// @throws as `solve_states`.
JointSolution solve_on_way(StaticSolver& solver, const TetrahedronMesh& mesh,
                           const JoinedBodies& joined, const std::vector<JointSolution>& solved,
                           const JointWay& way);

/// What acts from outside in a state, the joint's forces not counted.
/// @return as a load whose name is the state's.
ElementaryLoad outside_load(const JoinedBodies& joined, const JointStateSpec& state);

}  // namespace crossgrain
