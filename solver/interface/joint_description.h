// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/interface/joint_system.h"

namespace crossgrain {

/// Fill in what a solution's displacement means for pairs and screws.
/// @param fluid_pressure  by point [MPa].
void describe(const JointSystem& system, const Eigen::VectorXd& fluid_pressure,
              JointSolution& solution);

}  // namespace crossgrain
