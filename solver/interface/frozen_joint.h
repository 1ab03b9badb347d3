// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/interface/joint.h"
#include "solver/iteration/additions.h"

namespace crossgrain {

/// A joint as small changes of a solved state find it: every point stays open, pressed or stopped,
/// and a fluid where it is. Faces that push or tie directly are ten times as stiff as while a state
/// is solved: there augmentation makes good what they give, here nothing does.
struct FrozenJoint {
  StiffnessAdditions additions;
  /// By screw, along it; without stiffness where its force is given or it is slack.
  std::vector<StiffnessAdditions::Spring> screws;
};

/// @param load  of the state.  @param at  the state, solved.
FrozenJoint frozen_joint(const TetrahedronMesh& mesh, const Joint& joint, const JointLoad& load,
                         const JointSolution& at);

}  // namespace crossgrain
