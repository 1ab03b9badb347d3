// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/run_result.h"

namespace crossgrain {

/// Faces that have come to another state than before, where it is more than a thousandth of where
/// they meet: of every contact and gasket the greatest change over the states that load cases
/// count.
/// @param before, after  one a state; of the same joint.
std::vector<JointChange> joint_changes(const Loading& loading,
                                       const std::vector<JointSolution>& before,
                                       const std::vector<JointSolution>& after);

}  // namespace crossgrain
