// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/units/quantity.h"

#include <cctype>
#include <charconv>
#include <cmath>
#include <stdexcept>
#include <string>

#include "materials/units/units.h"

namespace crossgrain {
namespace {

std::string_view words_for(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
      return "a length";
    case Dimension::area:
      return "an area";
    case Dimension::volume:
      return "a volume";
    case Dimension::angle:
      return "an angle";
    case Dimension::pressure:
      return "a pressure, modulus or strength";
    case Dimension::force:
      return "a force";
    case Dimension::torque:
      return "a torque";
    case Dimension::temperature:
      return "a temperature";
    case Dimension::temperature_change:
      return "a temperature change";
    case Dimension::thermal_expansion:
      return "a thermal expansion";
    case Dimension::density:
      return "a density";
    case Dimension::acceleration:
      return "an acceleration";
    case Dimension::duration:
      return "a duration";
    case Dimension::fraction:
      return "a fraction";
  }
  return "a quantity";
}

[[noreturn]] void refuse(std::string_view text, Dimension dimension, const std::string& reason) {
  throw std::invalid_argument("\"" + std::string(text) + "\": " + reason + "; " +
                              std::string(words_for(dimension)) +
                              " is due here, in one of: " + accepted_units(dimension));
}

std::string_view trimmed(std::string_view text) {
  const auto blank = [](char c) { return std::isspace(static_cast<unsigned char>(c)) != 0; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

struct SplitText {
  double number;
  std::string_view unit;
};

SplitText split(std::string_view text, Dimension dimension) {
  std::string_view rest = trimmed(text);
  // from_chars, unlike strtod, ignores the locale and hexadecimal, but it does not take a plus.
  if (rest.size() > 1 && rest[0] == '+' && rest[1] != '-') rest.remove_prefix(1);
  double number = 0.0;
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), number);
  if (error == std::errc::result_out_of_range)
    refuse(text, dimension, "the number is too large or too small to hold");
  if (error != std::errc()) refuse(text, dimension, "no number at the start");
  if (!std::isfinite(number)) refuse(text, dimension, "the number is not finite");
  rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
  if (!rest.empty() && rest[0] == ',')
    refuse(text, dimension, "a decimal comma is not understood, write a point");
  return {number, trimmed(rest)};
}

[[noreturn]] void refuse_unit(std::string_view text, std::string_view unit, Dimension dimension) {
  const std::string quoted = "\"" + std::string(unit) + "\"";
  if (const auto remedy = remedy_for_refused_unit(unit))
    refuse(text, dimension, quoted + " " + *remedy);
  if (const auto other = dimension_of_unit(unit)) {
    const std::string_view words = words_for(*other);
    refuse(text, dimension, quoted + " is a unit of" + std::string(words.substr(words.find(' '))));
  }
  if (const auto near = unit_in_other_capitals(unit, dimension))
    refuse(text, dimension,
           "unknown unit " + quoted + ", did you mean \"" + *near + "\" (capitals matter)");
  refuse(text, dimension, "unknown unit " + quoted);
}

}  // namespace

double parse_quantity(std::string_view text, Dimension dimension) {
  const auto [number, unit] = split(text, dimension);
  if (unit.empty() && dimension != Dimension::fraction)
    refuse(text, dimension, "the unit is missing");

  const auto conversion = find_unit(unit, dimension);
  if (!conversion) refuse_unit(text, unit, dimension);
  const double value = conversion->factor * number + conversion->offset;

  if (!std::isfinite(value)) refuse(text, dimension, "the number is too large to hold");
  if (dimension == Dimension::temperature && !(value >= 0.0))
    refuse(text, dimension, "colder than absolute zero");
  return value;
}

std::string accepted_units(Dimension dimension) { return unit_list(dimension); }

}  // namespace crossgrain
