// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace crossgrain {

/// The unit in which pressures are printed for reading. Files for scripts stay in MPa whatever it
/// is.
enum class PressureUnit { MPa, bar, psi };

struct ReadingUnits {
  PressureUnit pressure = PressureUnit::MPa;
};

/// @param name  "MPa", "bar" or "psi"; case does not matter.
/// @throws std::invalid_argument quoting the name and the three that fit.
ReadingUnits parse_reading_units(std::string_view name);

/// "MPa", "bar" or "psi".
std::string_view name_of(PressureUnit unit);

/// How many of that unit one MPa is.
double per_MPa(PressureUnit unit);

struct UnitForReading {
  double scale;  ///< how many of it one of the given unit is
  std::string name;
};

/// The unit in which people know a quantity of materials, so that no number needs an exponent:
/// pressures as asked for, g/cm^3, um/(m K); any other as it is.
UnitForReading unit_for_reading(const std::string& unit, const ReadingUnits& units);

/// "0.413 MPa", "4.13 bar", "59.9 psi": three significant digits.
std::string pressure_text(double pressure_MPa, const ReadingUnits& units);

/// As above; "no limit found" if absent.
std::string pressure_text(const std::optional<double>& pressure_MPa, const ReadingUnits& units);

}  // namespace crossgrain
