// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "cases/second_opinions/causes.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {

std::optional<Cause> thick_wall(const ComparedPlace& at) {
  constexpr double thin_from = 10.0;
  if (!at.lame || at.shape.radius / at.shape.wall >= thin_from) return std::nullopt;
  return Cause{"thick wall",
               "The wall is thick, r/t " + words(at.shape.radius / at.shape.wall, 2) +
                   ": Lame's stress, as a straight line through it, makes " +
                   percent(*at.lame / at.hand) + ".",
               at.lame};
}

std::optional<Cause> near_an_end(const ComparedPlace& at) {
  const double reach = 2.5 * decay_length(at.shape);
  if (!is_shell(at.shape) || !(at.line.to_edge < reach)) return std::nullopt;
  return Cause{"near an end or step",
               "An end or a step of the wall is " + words(at.line.to_edge, 3) +
                   " mm away; what it holds or bends dies out over 2.5 (r t)^(1/2) = " +
                   words(reach, 3) + " mm.",
               std::nullopt};
}

std::optional<Cause> thrust_held_elsewhere(const ComparedPlace& at) {
  constexpr double most = 0.5;  // of the thrust: less than an end's bending or a port takes away
  const double share = at.field.membrane / at.hand;
  if (!at.end_thrust || share > most) return std::nullopt;
  return Cause{"thrust held elsewhere",
               "The mean through the wall is " + words(std::round(100.0 * share), 3) +
                   " % of what the fluid's thrust on the closed end would make: something else "
                   "holds that end.",
               std::nullopt};
}

}  // namespace crossgrain
