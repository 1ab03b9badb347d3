// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/iteration/additions.h"

namespace crossgrain {

/// What additions resist a displacement with, K_added u.
/// @param u  unknowns [mm].  @return unknowns [N].
Eigen::VectorXd added_forces(const StiffnessAdditions& additions, const Eigen::VectorXd& u);

}  // namespace crossgrain
