// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "cases/joint/joint_history.h"

namespace crossgrain {

/// The force of every screw from state to state, one plot a group: a line for each level of
/// preload through the mean of its screws, with a bar from the least to the greatest of them and a
/// dot for each. States that a level does not go through are left out of its line.
std::string joint_forces_svg(const JointHistory& history);

}  // namespace crossgrain
