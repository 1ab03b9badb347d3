// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "materials/units/quantity.h"

namespace crossgrain {

/// internal = factor * number + offset; the offset is for temperatures only.
struct UnitConversion {
  double factor;
  double offset;
};

/// Look a unit up as written ("kg/m^3", "N·m", "m H2O"), capitals significant; spelling variants of
/// powers, products and the micro and degree signs are levelled first.
std::optional<UnitConversion> find_unit(std::string_view unit, Dimension dimension);

/// The dimension that a unit belongs to, if it is known for any.
std::optional<Dimension> dimension_of_unit(std::string_view unit);

/// "MPa" for "mpa": the unit meant by someone who does not mind capitals.
std::optional<std::string> unit_in_other_capitals(std::string_view unit, Dimension dimension);

/// For units that are refused on purpose, why and what to write instead.
std::optional<std::string> remedy_for_refused_unit(std::string_view unit);

/// Units of a dimension for a reader, commonest first, separated by commas.
std::string unit_list(Dimension dimension);

}  // namespace crossgrain
