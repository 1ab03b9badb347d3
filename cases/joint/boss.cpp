// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/boss.h"

#include <algorithm>
#include <numbers>

#include "cases/joint/stated_number.h"

namespace crossgrain {

double tear_off_stress(double pull, const Insert& insert, double boss_diameter) {
  require_ring(boss_diameter, insert.diameter, "boss round an insert");
  positive(insert.length, "length of an insert", "mm");
  const double reached = std::min(boss_diameter, insert.diameter + 2.0 * insert.length);
  return not_negative(pull, "pull of an insert", "N") /
         (0.25 * std::numbers::pi * (reached * reached - insert.diameter * insert.diameter));
}

double hoop_split_stress(double pull, const Insert& insert, double boss_diameter) {
  require_ring(boss_diameter, insert.diameter, "boss round an insert");
  positive(insert.length, "length of an insert", "mm");
  const double wedge = 1.0 / std::numbers::sqrt3;  // tan 30 degrees
  const double pressure = not_negative(pull, "pull of an insert", "N") * wedge /
                          (std::numbers::pi * insert.diameter * insert.length);
  const double D2 = boss_diameter * boss_diameter, d2 = insert.diameter * insert.diameter;
  return pressure * (D2 + d2) / (D2 - d2);
}

double boss_wall(const Insert& insert, double boss_diameter) {
  require_ring(boss_diameter, insert.diameter, "boss round an insert");
  return 0.5 * (boss_diameter - insert.diameter);
}

}  // namespace crossgrain
