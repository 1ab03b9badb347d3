// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/screw_compliance.h"

#include <cmath>
#include <numbers>

#include "cases/joint/stated_number.h"

namespace crossgrain {
namespace {

double circle(double diameter) { return 0.25 * std::numbers::pi * diameter * diameter; }

void require_screw(const ScrewShank& screw) {
  positive(screw.clamped_length, "clamped length of a screw", "mm");
  positive(screw.modulus, "modulus of a screw", "MPa");
  within(screw.plain_shank, 0.0, screw.clamped_length, "plain shank of a screw", "mm");
}

}  // namespace

double screw_compliance(const ScrewShank& screw, const ScrewSize& size) {
  require_screw(screw);
  const double head = 0.4 * size.diameter / circle(size.diameter);
  const double shank = screw.plain_shank / circle(size.diameter);
  const double thread = (screw.clamped_length - screw.plain_shank + 0.5 * size.diameter) /
                        circle(size.core_diameter());
  return (head + shank + thread) / screw.modulus;
}

double thread_seat_compliance(ThreadSeat seat, double diameter, double modulus) {
  positive(diameter, "diameter of a thread", "mm");
  positive(modulus, "modulus round a thread", "MPa");
  const double length = (seat == ThreadSeat::nut ? 0.4 : 0.33) * diameter;
  return length / (modulus * circle(diameter));
}

LateralStiffness lateral_stiffness(const ScrewShank& screw, const ScrewSize& size) {
  require_screw(screw);
  const double l = screw.clamped_length;
  const double d = size.core_diameter();
  const double EI = screw.modulus * std::numbers::pi / 64.0 * std::pow(d, 4);
  const double GA = 0.9 * screw.modulus / (2.0 * 1.3) * circle(d);
  const auto stiffness = [&](double bending) {
    return 1.0 / (l * l * l / (bending * EI) + l / GA);
  };
  return {stiffness(3.0), stiffness(12.0)};
}

}  // namespace crossgrain
