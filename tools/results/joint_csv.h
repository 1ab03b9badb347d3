// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "cases/joint/joint_history.h"

namespace crossgrain {

/// Every screw's force and every seal's contact round it, state by state: one row each, for
/// spreadsheets and plots.
std::string joint_csv(const JointHistory& history);

}  // namespace crossgrain
