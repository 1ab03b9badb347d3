// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/screw_yield.h"

#include <cmath>
#include <numbers>

#include "cases/joint/preload.h"
#include "cases/joint/stated_number.h"

namespace crossgrain {

double screw_stress(double pull, double thread_torque, const ScrewSize& size) {
  not_negative(pull, "pull of a screw", "N");
  not_negative(thread_torque, "torque in a screw's thread", "N mm");
  const double normal = pull / size.stress_area;
  const double shear =
      thread_torque / (std::numbers::pi / 12.0 * std::pow(size.stress_diameter(), 3));
  return std::sqrt(normal * normal + 3.0 * shear * shear);
}

double preload_at_yield_share(double share, double yield, const ScrewSize& size,
                              double thread_friction) {
  positive(share, "share of a screw's yield", "-");
  positive(yield, "yield strength of a screw", "MPa");
  // Pull and torque are in proportion, and so is the stress.
  return share * yield / screw_stress(1.0, thread_torque(1.0, size, thread_friction), size);
}

}  // namespace crossgrain
