// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/jacking.h"

#include "cases/joint/preload.h"
#include "cases/joint/stated_number.h"

namespace crossgrain {

double depth_under_tip(double screw_length, double clamped_length, double hole_depth) {
  positive(screw_length, "length of a screw", "mm");
  positive(clamped_length, "clamped length of a screw", "mm");
  positive(hole_depth, "depth of a screw's hole", "mm");
  return clamped_length + hole_depth - screw_length;
}

double jacking_force(double torque, const ScrewSize& size, double thread_friction) {
  return not_negative(torque, "torque", "N mm") / thread_torque(1.0, size, thread_friction);
}

}  // namespace crossgrain
