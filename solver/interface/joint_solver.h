// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "solver/interface/joint.h"
#include "solver/static_solver.h"

namespace crossgrain {

struct JointOptions {
  /// Mean depth to which faces may go into each other, as a share of what one element gives.
  double penetration = 1e-2;
  int augmentations_most = 10;
  int steps_most = 60;  ///< linear systems between two augmentations
};

/// Solves bodies that are joined by faces and screws: a semismooth Newton iteration whose linear
/// systems are the solver's own with the joint's stiffness added. It has ended when no point
/// changes between open, pressed and stopped any more, so that the last linear system was the right
/// one.
class JointSolver {
 public:
  /// @param mesh, solver  kept by reference; the solver's material is set by the caller. While a
  /// joint is solved its additions are the joint's.
  /// @throws std::invalid_argument for laws and screws that are not sound, naming them.
  JointSolver(const TetrahedronMesh& mesh, StaticSolver& solver, Joint joint,
              const JointOptions& options = {});
  ~JointSolver();
  JointSolver(const JointSolver&) = delete;
  JointSolver& operator=(const JointSolver&) = delete;

  const Joint& joint() const;

  /// @param start  a state nearby.
  /// @throws std::invalid_argument for a load that does not fit the joint.
  /// @throws std::runtime_error if the iteration does not end, or nothing holds a body any more.
  JointSolution solve(const JointLoad& load, const JointSolution* start = nullptr);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

/// Lock a screw as it is in a state. @param expansion  free, since then [mm]
ScrewCommand locked(const ScrewState& state, double expansion = 0.0);

}  // namespace crossgrain
