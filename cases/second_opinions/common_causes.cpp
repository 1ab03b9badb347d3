// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "cases/second_opinions/causes.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {

std::string percent(double ratio) {
  const double change = 100.0 * (ratio - 1.0);
  return (change < 0.0 ? "-" : "+") + words(std::round(std::abs(change)), 4) + " %";
}

double decay_length(const SimpleShape& shape) {
  const double radius = is_shell(shape) ? shape.radius + 0.5 * shape.wall : shape.radius;
  return std::sqrt(radius * shape.wall);
}

std::optional<Cause> uneven_wall(const ComparedPlace& at) {
  if (!(at.shape.wall_greatest > (1.0 + agreed) * at.shape.wall)) return std::nullopt;
  return Cause{"uneven wall",
               "The wall is " + words(at.shape.wall, 3) + " to " +
                   words(at.shape.wall_greatest, 3) + " mm thick there; the formula takes one.",
               std::nullopt};
}

std::optional<Cause> opening_nearby(const ComparedPlace& at) {
  const double reach = decay_length(at.shape);
  if (!(at.line.to_opening < reach)) return std::nullopt;
  return Cause{"opening nearby",
               "A hole's rim is " + words(at.line.to_opening, 3) +
                   " mm away, less than (r t)^(1/2) = " + words(reach, 3) +
                   " mm; at its rim stress is 2 to 3 times the wall's.",
               std::nullopt};
}

std::optional<Cause> stiffness_by_direction(const ComparedPlace& at) {
  if (!at.isotropic) return std::nullopt;
  const double printed = at.field.on(at.line.side), isotropic = at.isotropic->on(at.line.side);
  if (!(std::abs(printed / isotropic - 1.0) > 0.5 * agreed)) return std::nullopt;
  return Cause{"stiffness by direction",
               "The print is not equally stiff in all directions: the same place in an isotropic "
               "part makes " +
                   percent(isotropic / at.hand) + ".",
               at.hand * printed / isotropic};
}

std::optional<Cause> other_loads(const ComparedPlace& at) {
  if (!at.other_loads) return std::nullopt;
  return Cause{"other loads", "Loads other than the pressure act in this load case, too.",
               std::nullopt};
}

}  // namespace crossgrain
