// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/interface/joint_system.h"

namespace crossgrain {

/// Whether faces push or tie by their own stiffness, which augmentation makes good.
bool is_direct(const InterfaceLaw& law);

/// Mean depth to which faces that push or tie directly are off, weighed by pressure, as a share of
/// what one element behind either gives under that pressure; of the pair where it is largest.
double penetration(const JointSystem& system, const JointMotion& motion);

/// Take over the tractions of such faces as they are, so that the next solution needs less
/// penetration for them.
void hold_tractions(JointSystem& system, const JointMotion& motion);

}  // namespace crossgrain
