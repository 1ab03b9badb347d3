// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "cases/joint/joint_history.h"

namespace crossgrain {

/// Every screw's force, every seal's contact round it and the flange's bow from screw to screw,
/// state by state: one row each, for spreadsheets and plots.
std::string joint_csv(const JointHistory& history);

}  // namespace crossgrain
