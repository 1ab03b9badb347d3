// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/frozen_joint.h"

#include "solver/interface/joint_system.h"
#include "solver/iteration/added_forces.h"

namespace crossgrain {

FrozenJoint frozen_joint(const TetrahedronMesh& mesh, const Joint& joint, const JointLoad& load,
                         const JointSolution& solution) {
  JointSystem system(mesh, joint);
  system.set_load(load);
  Eigen::Index first = 0;
  for (const PairState& pair : solution.pairs) {
    system.held.middleCols(first, pair.held.cols()) = pair.held;
    first += pair.held.cols();
  }
  const JointTangent tangent = system.tangent(system.motion(solution.displacement), false);

  FrozenJoint frozen;
  frozen.stiffness = system.additions(tangent);
  frozen.forces = solution.forces + added_forces(frozen.stiffness, solution.displacement);
  frozen.by_lock.setZero(mesh.unknowns(), static_cast<Eigen::Index>(joint.screws.size()));
  for (std::size_t s = 0; s < joint.screws.size(); ++s) {
    if (load.screws[s].tightening) continue;
    const double stiffness = tangent.screw_stiffness[static_cast<Eigen::Index>(s)];
    const ScrewMotions motions = screw_motions(joint.screws[s]);
    for (const auto& [node, share] : motions[0])
      frozen.by_lock.col(static_cast<Eigen::Index>(s)).segment<3>(3 * Eigen::Index{node}) +=
          stiffness * share;
  }
  return frozen;
}

}  // namespace crossgrain
