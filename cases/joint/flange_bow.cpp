// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/flange_bow.h"

#include <cmath>

#include "cases/joint/stated_number.h"

namespace crossgrain {

BowedContact bowed_contact(double bow, double relieved) {
  // Above 20 nothing is left between the screws, and the functions overflow later on.
  within(bow, 1e-3, 20.0, "bow number phi", "-");
  within(relieved, 0.0, 1.0, "share of the contact that the fluid takes off", "-");
  const double half = 0.5 * bow;
  const double below = std::cosh(bow) - std::cos(bow);
  // Sum of e^-z (cos z + sin z) over all screws, over its mean 2 / phi.
  const double at_screw = half * (std::sinh(bow) + std::sin(bow)) / below;
  const double between =
      bow * (std::cosh(half) * std::sin(half) + std::sinh(half) * std::cos(half)) / below;
  return {at_screw - relieved, between - relieved};
}

double bow_number(double evenness) {
  const auto evenness_of = [](double bow) {
    const BowedContact contact = bowed_contact(bow, 0.0);
    return contact.between / contact.at_screw;
  };
  if (std::isnan(evenness)) return evenness;
  double low = 1e-3, high = nothing_between;
  if (evenness >= evenness_of(low)) return 0.0;
  if (evenness <= evenness_of(high)) return nothing_between;
  for (int step = 0; step < 50; ++step) {
    const double middle = 0.5 * (low + high);
    (evenness_of(middle) > evenness ? low : high) = middle;
  }
  return low;
}

double usual_pitch_limit(double screw_diameter, double flange_thickness, double m) {
  positive(screw_diameter, "diameter of a screw", "mm");
  positive(flange_thickness, "thickness of a flange", "mm");
  not_negative(m, "gasket factor m", "-");
  return 2.0 * screw_diameter + 6.0 * flange_thickness / (m + 0.5);
}

}  // namespace crossgrain
