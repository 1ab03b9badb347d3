// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace crossgrain {

// A number handed to one of the joint's formulas; what makes no sense is refused by name, value and
// unit. NaN is refused by all of them.

/// @throws std::invalid_argument unless `value` is finite and greater than zero.
/// @return `value`
double positive(double value, std::string_view quantity, std::string_view unit);

/// @throws std::invalid_argument unless `value` is finite and at least zero.
/// @return `value`
double not_negative(double value, std::string_view quantity, std::string_view unit);

/// @throws std::invalid_argument unless `value` lies in [low, high].
/// @return `value`
double within(double value, double low, double high, std::string_view quantity,
              std::string_view unit);

/// @throws std::invalid_argument unless both are positive and `outer` is the greater one.
void require_ring(double outer, double inner, std::string_view quantity);

}  // namespace crossgrain
