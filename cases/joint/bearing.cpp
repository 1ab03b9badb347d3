// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/bearing.h"

#include <algorithm>
#include <numbers>

#include "cases/joint/stated_number.h"

namespace crossgrain {

double bearing_pressure(double force, double outer, double hole) {
  require_ring(outer, hole, "a screw's head on its hole");
  not_negative(force, "force under a screw's head", "N");
  return force / (0.25 * std::numbers::pi * (outer * outer - hole * hole));
}

double washer_spread(const ScrewSize& size) {
  return std::min(size.washer_diameter, size.head_diameter + 1.6 * size.washer_thickness);
}

double bearing_limit(double compressive_yield, double share) {
  positive(compressive_yield, "compressive yield", "MPa");
  return compressive_yield * within(share, 0.01, 1.0, "share of it under a head", "-");
}

}  // namespace crossgrain
