// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/frozen_joint.h"

#include "solver/interface/augmentation.h"
#include "solver/interface/joint_system.h"

namespace crossgrain {
namespace {

// Bars of eight elements, pressed together: a change of their moduli comes out 1 % too small with
// faces as they are, 0.1 % with these.
constexpr double times_stiff = 10.0;

}  // namespace

FrozenJoint frozen_joint(const TetrahedronMesh& mesh, const Joint& joint, const JointLoad& load,
                         const JointSolution& solution) {
  JointSystem system(mesh, joint);
  system.set_load(load);
  system.hold(solution.pairs);
  JointTangent tangent = system.tangent(system.motion(solution.displacement), false);
  for (std::size_t p = 0; p < system.size(); ++p)
    if (is_direct(system.law(p))) tangent.stiffness[p] *= times_stiff;
  FrozenJoint frozen;
  frozen.stiffness = system.additions(tangent);
  frozen.forces = solution.forces + added_forces(frozen.stiffness, solution.displacement);
  for (std::size_t s = 0; s < joint.screws.size(); ++s)
    frozen.screws.push_back(
        {screw_motions(joint.screws[s])[0], tangent.screw_stiffness[static_cast<Eigen::Index>(s)]});
  return frozen;
}

Eigen::MatrixXd FrozenJoint::by_lock() const {
  Eigen::MatrixXd by_lock =
      Eigen::MatrixXd::Zero(forces.size(), static_cast<Eigen::Index>(screws.size()));
  for (std::size_t s = 0; s < screws.size(); ++s)
    for (const auto& [node, direction] : screws[s].shares)
      by_lock.col(static_cast<Eigen::Index>(s)).segment<3>(3 * Eigen::Index{node}) +=
          screws[s].stiffness * direction;
  return by_lock;
}

}  // namespace crossgrain
