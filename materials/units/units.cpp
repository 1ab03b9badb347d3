// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/units/units.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

namespace crossgrain {
namespace {

// A table of our own: udunits reads "60 degC" whole as 60 K, "C" as coulomb, and knows neither
// "Nm" nor "psig". Factors of the inch, pound and calendar units are exact by definition (NIST
// SP 811, appendix B), from memory.
constexpr double inch = 25.4;                                      // mm
constexpr double foot = 12.0 * inch;                               // mm
constexpr double pound_mass = 0.45359237e-3;                       // tonne
constexpr double standard_gravity = 9806.65;                       // mm/s^2
constexpr double pound_force = pound_mass * standard_gravity;      // N (tonne mm/s^2)
constexpr double kilogram_force = 1e-3 * standard_gravity;         // N
constexpr double psi = pound_force / (inch * inch);                // MPa
constexpr double metre_of_water = 1e-9 * standard_gravity * 1000;  // MPa; water of 1000 kg/m^3
constexpr double millimetre_of_mercury = 133.322387415e-6;         // MPa
constexpr double day = 86400.0;                                    // s
constexpr double year = 365.25 * day;                              // s
constexpr double degree = 0.017453292519943295;                    // rad
constexpr double fahrenheit = 5.0 / 9.0;                           // K
constexpr double freezing = 273.15;                                // K

struct Unit {
  std::string_view name;
  Dimension dimension;
  double factor;
  bool listed = true;  // shown to a reader; spelling variants are not
  double offset = 0.0;
};
constexpr bool variant = false;

using enum Dimension;
constexpr auto units = std::to_array<Unit>({
    {"mm", length, 1.0},
    {"cm", length, 10.0},
    {"m", length, 1000.0},
    {"um", length, 1e-3},
    {"in", length, inch},
    {"ft", length, foot},
    {"inch", length, inch, variant},
    {"mm2", area, 1.0},
    {"cm2", area, 100.0},
    {"m2", area, 1e6},
    {"in2", area, inch* inch},
    {"mm3", volume, 1.0},
    {"cm3", volume, 1e3},
    {"mL", volume, 1e3},
    {"L", volume, 1e6},
    {"m3", volume, 1e9},
    {"in3", volume, inch* inch* inch},
    {"ml", volume, 1e3, variant},
    {"l", volume, 1e6, variant},
    {"deg", angle, degree},
    {"rad", angle, 1.0},
    {"MPa", pressure, 1.0},
    {"kPa", pressure, 1e-3},
    {"bar", pressure, 0.1},
    {"psi", pressure, psi},
    {"m H2O", pressure, metre_of_water},
    {"Pa", pressure, 1e-6},
    {"hPa", pressure, 1e-4},
    {"mbar", pressure, 1e-4},
    {"GPa", pressure, 1e3},
    {"ksi", pressure, 1e3 * psi},
    {"N/mm2", pressure, 1.0},
    {"mm H2O", pressure, 1e-3 * metre_of_water},
    {"cm H2O", pressure, 1e-2 * metre_of_water},
    {"in H2O", pressure, 1e-3 * inch* metre_of_water},
    {"ft H2O", pressure, 1e-3 * foot* metre_of_water},
    {"mmHg", pressure, millimetre_of_mercury},
    {"mH2O", pressure, metre_of_water, variant},
    {"mmH2O", pressure, 1e-3 * metre_of_water, variant},
    {"cmH2O", pressure, 1e-2 * metre_of_water, variant},
    {"inH2O", pressure, 1e-3 * inch* metre_of_water, variant},
    {"ftH2O", pressure, 1e-3 * foot* metre_of_water, variant},
    {"mm Hg", pressure, millimetre_of_mercury, variant},
    {"barg", pressure, 0.1, variant},
    {"bar(g)", pressure, 0.1, variant},
    {"mbarg", pressure, 1e-4, variant},
    {"psig", pressure, psi, variant},
    {"psi(g)", pressure, psi, variant},
    {"kPa(g)", pressure, 1e-3, variant},
    {"MPa(g)", pressure, 1.0, variant},
    {"N", force, 1.0},
    {"kN", force, 1e3},
    {"lbf", force, pound_force},
    {"kgf", force, kilogram_force},
    {"N m", torque, 1e3},
    {"N mm", torque, 1.0},
    {"N cm", torque, 10.0},
    {"kN m", torque, 1e6},
    {"lbf in", torque, pound_force* inch},
    {"lbf ft", torque, pound_force* foot},
    {"kgf cm", torque, 10.0 * kilogram_force},
    {"kgf m", torque, 1e3 * kilogram_force},
    {"Nm", torque, 1e3, variant},
    {"Nmm", torque, 1.0, variant},
    {"Ncm", torque, 10.0, variant},
    {"in lbf", torque, pound_force* inch, variant},
    {"ft lbf", torque, pound_force* foot, variant},
    {"in lb", torque, pound_force* inch, variant},
    {"lb in", torque, pound_force* inch, variant},
    {"ft lb", torque, pound_force* foot, variant},
    {"lb ft", torque, pound_force* foot, variant},
    {"degC", temperature, 1.0, true, freezing},
    {"degF", temperature, fahrenheit, true, freezing - 32.0 * fahrenheit},
    {"K", temperature, 1.0},
    {"K", temperature_change, 1.0},
    {"degC", temperature_change, 1.0},
    {"degF", temperature_change, fahrenheit},
    {"1/K", thermal_expansion, 1.0},
    {"um/(m K)", thermal_expansion, 1e-6},
    {"1/degC", thermal_expansion, 1.0},
    {"1/degF", thermal_expansion, 1.0 / fahrenheit},
    {"ppm/K", thermal_expansion, 1e-6},
    {"/K", thermal_expansion, 1.0, variant},
    {"um/m/K", thermal_expansion, 1e-6, variant},
    {"um/(m degC)", thermal_expansion, 1e-6, variant},
    {"um/m/degC", thermal_expansion, 1e-6, variant},
    {"mm/(m K)", thermal_expansion, 1e-3, variant},
    {"in/(in degF)", thermal_expansion, 1.0 / fahrenheit, variant},
    {"g/cm3", density, 1e-9},
    {"kg/m3", density, 1e-12},
    {"tonne/mm3", density, 1.0},
    {"lb/ft3", density, pound_mass / (foot * foot * foot)},
    {"lb/in3", density, pound_mass / (inch * inch * inch)},
    {"kg/L", density, 1e-9, variant},
    {"g/mL", density, 1e-9, variant},
    {"g/ml", density, 1e-9, variant},
    {"mm/s2", acceleration, 1.0},
    {"m/s2", acceleration, 1e3},
    {"ft/s2", acceleration, foot},
    {"g", acceleration, standard_gravity},
    {"s", duration, 1.0},
    {"min", duration, 60.0},
    {"h", duration, 3600.0},
    {"day", duration, day},
    {"week", duration, 7.0 * day},
    {"month", duration, year / 12.0},
    {"year", duration, year},
    {"d", duration, day, variant},
    {"hour", duration, 3600.0, variant},
    {"hours", duration, 3600.0, variant},
    {"days", duration, day, variant},
    {"weeks", duration, 7.0 * day, variant},
    {"months", duration, year / 12.0, variant},
    {"years", duration, year, variant},
    {"%", fraction, 0.01},
    {"", fraction, 1.0},
});

constexpr auto refused_units = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"C", "is the unit of electric charge, write \"degC\""},
    {"F", "is the unit of capacitance, write \"degF\""},
    {"bara", "is an absolute pressure, give the gauge pressure (subtract 1.01325 bar)"},
    {"bar(a)", "is an absolute pressure, give the gauge pressure (subtract 1.01325 bar)"},
    {"psia", "is an absolute pressure, give the gauge pressure (subtract 14.696 psi)"},
    {"psi(a)", "is an absolute pressure, give the gauge pressure (subtract 14.696 psi)"},
    {"kPa(a)", "is an absolute pressure, give the gauge pressure (subtract 101.325 kPa)"},
    {"MPa(a)", "is an absolute pressure, give the gauge pressure (subtract 0.101325 MPa)"},
    {"mPa", "is a thousandth of a pascal, write \"MPa\" for megapascal"},
    {"lb", "is a mass, write \"lbf\" for a force"},
    {"kg", "is a mass, write \"kgf\" for a force"},
});

/// One spelling for powers, products, the micro and the degree sign.
std::string levelled(std::string_view unit) {
  static constexpr auto spellings = std::to_array<std::pair<std::string_view, std::string_view>>({
      {"^", ""},
      {"\u00b2", "2"},
      {"\u00b3", "3"},
      {"\u00b5", "u"},
      {"\u03bc", "u"},
      {"\u00b0C", "degC"},
      {"\u00b0F", "degF"},
      {"\u00b0", "deg"},
      {"\u00b7", " "},
      {"\u22c5", " "},
      {"*", " "},
      {"-", " "},
  });
  std::string text(unit);
  for (const auto& [from, to] : spellings)
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
      text.replace(at, from.size(), to);
  std::string result;
  for (const char c : text) {
    const bool blank = std::isspace(static_cast<unsigned char>(c)) != 0;
    if (!blank)
      result += c;
    else if (!result.empty() && result.back() != ' ')
      result += ' ';
  }
  return result;
}

bool same_but_for_capitals(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](unsigned char x, unsigned char y) {
    return std::tolower(x) == std::tolower(y);
  });
}

}  // namespace

std::optional<UnitConversion> find_unit(std::string_view unit, Dimension dimension) {
  const std::string name = levelled(unit);
  for (const Unit& known : units)
    if (known.dimension == dimension && known.name == name)
      return UnitConversion{known.factor, known.offset};
  return std::nullopt;
}

std::optional<Dimension> dimension_of_unit(std::string_view unit) {
  const std::string name = levelled(unit);
  for (const Unit& known : units)
    if (known.name == name) return known.dimension;
  return std::nullopt;
}

std::optional<std::string> unit_in_other_capitals(std::string_view unit, Dimension dimension) {
  const std::string name = levelled(unit);
  for (const Unit& known : units)
    if (known.dimension == dimension && same_but_for_capitals(known.name, name))
      return std::string(known.name);
  return std::nullopt;
}

std::optional<std::string> remedy_for_refused_unit(std::string_view unit) {
  const std::string name = levelled(unit);
  for (const auto& [refused, remedy] : refused_units)
    if (refused == name) return std::string(remedy);
  return std::nullopt;
}

std::string unit_list(Dimension dimension) {
  if (dimension == Dimension::fraction) return "a plain number (0.03), %";
  std::string list;
  for (const Unit& known : units)
    if (known.dimension == dimension && known.listed)
      list += (list.empty() ? "" : ", ") + std::string(known.name);
  return list;
}

}  // namespace crossgrain
