// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/joint/joint_facts.h"

namespace crossgrain {

/// Lines of one group of screws in one state: bearing, proof load, pull-out, tear-off or hoop
/// split, by the screw that is pulled most; at the moment of tightening also yield with torsion and
/// torque-out.
/// @throws std::invalid_argument where a force is missing or no number.
std::vector<JointLine> screw_lines(const ScrewGroupFacts& group,
                                   const JointStateFacts::Group& forces,
                                   const JointStateFacts& state);

/// Lines that no state changes: the boss's wall, room under the tip.
std::vector<JointLine> screw_lines(const ScrewGroupFacts& group);

}  // namespace crossgrain
