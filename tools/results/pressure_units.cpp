// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/pressure_units.h"

#include <algorithm>
#include <cctype>
#include <stdexcept>

#include "tools/results/number_text.h"

namespace crossgrain {

std::string_view name_of(PressureUnit unit) {
  switch (unit) {
    case PressureUnit::bar:
      return "bar";
    case PressureUnit::psi:
      return "psi";
    default:
      return "MPa";
  }
}

ReadingUnits parse_reading_units(std::string_view name) {
  const auto same = [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) ==
           std::tolower(static_cast<unsigned char>(b));
  };
  for (const PressureUnit unit : {PressureUnit::MPa, PressureUnit::bar, PressureUnit::psi}) {
    const std::string_view known = name_of(unit);
    if (std::equal(name.begin(), name.end(), known.begin(), known.end(), same)) return {unit};
  }
  throw std::invalid_argument("units \"" + std::string(name) +
                              "\" are not known; choose MPa, bar or psi");
}

double per_MPa(PressureUnit unit) {
  switch (unit) {
    case PressureUnit::bar:
      return 10.0;
    case PressureUnit::psi:
      // 1 lbf = 0.45359237 kg x 9.80665 m/s^2, 1 in = 25.4 mm: all exact by definition.
      return 25.4 * 25.4 / (0.45359237 * 9.80665);
    default:
      return 1.0;
  }
}

UnitForReading unit_for_reading(const std::string& unit, const ReadingUnits& units) {
  if (unit == "MPa") return {per_MPa(units.pressure), std::string(name_of(units.pressure))};
  if (unit == "tonne/mm^3") return {1e9, "g/cm^3"};
  if (unit == "1/K") return {1e6, "um/(m K)"};
  return {1.0, unit};
}

std::string pressure_text(double pressure_MPa, const ReadingUnits& units) {
  return number_text(pressure_MPa * per_MPa(units.pressure)) + " " +
         std::string(name_of(units.pressure));
}

std::string pressure_text(const std::optional<double>& pressure_MPa, const ReadingUnits& units) {
  return pressure_MPa ? pressure_text(*pressure_MPa, units) : "no limit found";
}

}  // namespace crossgrain
