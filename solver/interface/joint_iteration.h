// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "solver/interface/joint_system.h"
#include "solver/static_solver.h"

namespace crossgrain {

/// Newton's method for bodies and joint together: the joint's laws are gradients of convex
/// functions, piecewise smooth, so that the whole has an energy with one minimum, and a step that
/// does not go beyond the lowest point on its way leads there.
class JointIteration {
 public:
  /// All kept by reference. @param steps_most  before it gives up.
  JointIteration(JointSystem& system, StaticSolver& solver, int steps_most)
      : system_(system), solver_(solver), steps_most_(steps_most) {}

  struct End {
    int solves;
    double residual;  ///< of the joint's forces, over all forces
  };
  /// @param forces  unknowns [N].  @param u  where it begins, and the solution [mm].
  /// @param closed  whether to begin as if no point could open.
  /// @throws std::runtime_error if it does not end, or nothing holds a body any more.
  End solve(const Eigen::VectorXd& forces, Eigen::VectorXd& u, bool closed);

 private:
  void use(const JointTangent& tangent);
  Eigen::VectorXd solved(const JointTangent& tangent, const Eigen::VectorXd& forces,
                         const Eigen::VectorXd& u, std::optional<double> tolerance);
  double step_length(const Eigen::VectorXd& u, const Eigen::VectorXd& step,
                     const Eigen::VectorXd& forces) const;

  JointSystem& system_;
  StaticSolver& solver_;
  int steps_most_;
  /// The tangent that the solver has.
  std::optional<JointTangent> used_;
};

}  // namespace crossgrain
