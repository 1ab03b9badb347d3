// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/interface/fluid_spread.h"
#include "solver/interface/joint_system.h"

namespace crossgrain {

/// Fluids that creep between the faces of a joint wherever these press on each other less than the
/// fluid does, and push them apart there. What they have reached they keep while a state is solved:
/// a place that closes again under their pressure is still wet. Tied faces let nothing in.
class FluidInPairs {
 public:
  /// Both are kept by reference.
  FluidInPairs(const TetrahedronMesh& mesh, const JointSystem& system);

  /// A state with these fluids; nothing is wet yet.
  void begin(const std::vector<FluidInJoint>& fluids);

  /// Go on from what is wet to what may be entered, and add the fluids' push to the forces.
  /// @return whether a fluid came to a place where it was not.
  bool creeps_on(const JointMotion& motion, Eigen::VectorXd& forces);

  /// Of the fluids that have come to every point; 0: none [MPa].
  const Eigen::VectorXd& pressure() const { return pressure_; }

 private:
  const TetrahedronMesh& mesh_;
  const JointSystem& system_;
  FluidSpread spread_;
  std::vector<FluidInJoint> fluids_;
  Eigen::VectorXd pressure_;
};

}  // namespace crossgrain
