// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace crossgrain {

/// What a number measures. The internal unit of each: mm, N, MPa, tonne, s, K, radian.
enum class Dimension {
  length,              ///< mm
  area,                ///< mm^2
  volume,              ///< mm^3
  angle,               ///< rad
  pressure,            ///< MPa; also moduli and strengths; "m H2O" and "psi" are known
  force,               ///< N
  torque,              ///< N mm
  temperature,         ///< K (degC, degF, K)
  temperature_change,  ///< K
  thermal_expansion,   ///< 1/K
  density,             ///< tonne/mm^3
  acceleration,        ///< mm/s^2
  duration,            ///< s
  fraction,            ///< - ("3 %" or "0.03")
};

/// Read "0.4 MPa", "58 psi", "2.5 N m", "60 degC" into internal units.
/// @throws std::invalid_argument quoting the text and the units that fit, for a missing, unknown or
/// wrong unit, a
///         number that is not finite, or trailing text.
double parse_quantity(std::string_view text, Dimension dimension);

/// Units accepted for a dimension, for error messages and the key reference ("MPa, kPa, bar, psi,
/// ...").
std::string accepted_units(Dimension dimension);

}  // namespace crossgrain
