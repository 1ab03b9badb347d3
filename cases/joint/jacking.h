// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/joint/screw_sizes.h"

namespace crossgrain {

/// Depth left under the tip of a screw once its head sits; at or below zero the screw bottoms, and
/// tightening jacks the insert out of its hole instead of pressing the joint.
/// @param screw_length  below the head [mm]  @param clamped_length  head to the hole's mouth [mm]
/// @param hole_depth    open to the screw, from the mouth [mm]  @return [mm]
double depth_under_tip(double screw_length, double clamped_length, double hole_depth);

/// Pull on the insert of a screw that bottoms: nothing rubs under the head, the thread turns the
/// whole torque into force (friction at the tip left out).
/// @param torque  [N mm]  @return [N]
double jacking_force(double torque, const ScrewSize& size, double thread_friction);

}  // namespace crossgrain
