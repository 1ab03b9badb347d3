// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/joint/joint_facts.h"

namespace crossgrain {

/// A seal's places as a state presses them.
/// @param contact  one a place [MPa]
/// @throws std::invalid_argument if there are more or fewer.
std::vector<SealPoint> pressed_places(const SealFacts& seal, const std::vector<double>& contact);

/// Lines of one seal in one state. At the moment of tightening the contact along the weakest line
/// must seat the gasket; under a fluid it must seal; wherever a greatest contact is stated the
/// gasket must not be crushed. A state that is none of these has no lines.
/// @param contact  of the seal's points [MPa]
/// @throws std::invalid_argument naming the seal and the situation.
std::vector<JointLine> seal_lines(const SealFacts& seal, const std::vector<double>& contact,
                                  const JointStateFacts& state);

}  // namespace crossgrain
