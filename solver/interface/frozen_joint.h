// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/interface/joint.h"
#include "solver/iteration/additions.h"

namespace crossgrain {

/// A joint that answers as it did at the end of a state: no point opens or closes any more,
/// beddings keep their slope there, and fluid stays where it has come. Faces that push or tie
/// directly are ten times as stiff as while a state is solved: there augmentation makes good what
/// they give, here nothing does. Under it (K + stiffness) u = load + forces + by_lock() * (how much
/// more each screw was long when it was locked).
struct FrozenJoint {
  StiffnessAdditions stiffness;
  Eigen::VectorXd forces;  ///< at no displacement, screws locked as they were; unknowns [N]
  /// By screw, along it; without stiffness where its force is given or it is slack.
  std::vector<StiffnessAdditions::Spring> screws;

  Eigen::MatrixXd by_lock() const;  ///< unknowns x screws [N/mm]
};

/// @param load      of the state.
/// @param solution  of it; the frozen joint has the same one.
FrozenJoint frozen_joint(const TetrahedronMesh& mesh, const Joint& joint, const JointLoad& load,
                         const JointSolution& solution);

}  // namespace crossgrain
