// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/chosen_shape.h"

#include "cases/second_opinions/hand_calculation.h"
#include "cases/second_opinions/named_shape.h"

namespace crossgrain {

HandCalculationSpec shape_of_greatest_stress(const std::vector<SimpleShape>& shapes,
                                             const HandCalculationSpec& asked, double pressure,
                                             double nu) {
  const HandStrength unit{1.0, ""};
  HandCalculationSpec chosen = asked;
  double greatest = 0.0;
  for (const SimpleShape& shape : shapes) {
    HandCalculationSpec named = named_shape(shape);
    named.place = asked.place;
    named.pressure = asked.pressure;
    const double stress = hand_calculation(named, pressure, nu, unit).stress_MPa;
    if (!(stress > greatest)) continue;
    greatest = stress;
    chosen = named;
  }
  return chosen;
}

HandCalculationSpec most_slender_shell(const std::vector<SimpleShape>& shapes) {
  HandCalculationSpec chosen;
  double most = 0.0;
  for (const SimpleShape& shape : shapes) {
    if (!is_shell(shape) || !(shape.radius / shape.wall > most)) continue;
    most = shape.radius / shape.wall;
    chosen = named_shape(shape);
  }
  return chosen;
}

}  // namespace crossgrain
