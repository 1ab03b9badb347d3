// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>

namespace crossgrain {

/// Nothing can be pumped below this, gauge [MPa]: one standard atmosphere, ISO 2533.
constexpr double perfect_vacuum_MPa = -0.101325;

/// How far a pressure can be multiplied: a vacuum inside ends at the perfect one. A stronger
/// "vacuum" stands for water outside, which does not end.
inline double largest_multiple(double pressure_MPa) {
  const bool is_vacuum = pressure_MPa < 0.0 && pressure_MPa >= perfect_vacuum_MPa;
  return is_vacuum ? perfect_vacuum_MPa / pressure_MPa : std::numeric_limits<double>::infinity();
}

}  // namespace crossgrain
