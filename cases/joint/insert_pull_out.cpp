// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/insert_pull_out.h"

#include <numbers>

#include "cases/joint/stated_number.h"

namespace crossgrain {

HoldingForce given_pull_out(double short_term, const Kept& strength) {
  positive(short_term, "pull-out force of an insert", "N");
  positive(strength.low, "strength kept by the plastic", "-");
  return {short_term * strength.value, short_term * strength.low, short_term * strength.high,
          LimitStanding::given,
          "short-term figure as given, less sustained load and temperature as for the plastic"};
}

HoldingForce estimated_pull_out(const Insert& insert, const ShearStrength& strength) {
  positive(insert.diameter, "diameter of an insert", "mm");
  positive(insert.length, "length of an insert", "mm");
  positive(strength.low, "shear strength round an insert", "MPa");
  positive(strength.value, "shear strength round an insert", "MPa");
  positive(strength.high, "shear strength round an insert", "MPa");
  const double cylinder = std::numbers::pi * insert.diameter * insert.length;
  return {0.4 * cylinder * strength.value, 0.25 * cylinder * strength.low,
          0.7 * cylinder * strength.high, LimitStanding::estimated,
          "0.4 (0.25 to 0.7) of the cylinder round the insert times the plastic's shear strength"};
}

}  // namespace crossgrain
