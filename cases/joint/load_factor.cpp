// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/load_factor.h"

#include <algorithm>

#include "cases/joint/stated_number.h"

namespace crossgrain {

double load_factor(const JointCompliance& joint, double introduction) {
  positive(joint.screw, "compliance of a screw", "mm/N");
  positive(joint.clamped, "compliance of clamped parts", "mm/N");
  not_negative(joint.gasket, "compliance of a gasket", "mm/N");
  within(introduction, 0.0, 1.0, "load introduction n", "-");
  return introduction * (joint.clamped + joint.gasket) / joint.sum();
}

double screw_force(double preload, double working_load, double load_factor) {
  not_negative(preload, "preload of a screw", "N");
  not_negative(working_load, "working load of a screw", "N");
  within(load_factor, 0.0, 1.0, "load factor", "-");
  return std::max(preload + load_factor * working_load, working_load);
}

double opening_load(double preload, double load_factor) {
  not_negative(preload, "preload of a screw", "N");
  return preload / (1.0 - within(load_factor, 0.0, 0.9999, "load factor", "-"));
}

}  // namespace crossgrain
