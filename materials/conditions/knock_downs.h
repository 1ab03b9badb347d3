// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>
#include <vector>

#include "materials/card_file/card.h"
#include "materials/conditions/material.h"

namespace crossgrain {

/// What temperature, moisture, time under load and load cycles take off strength and modulus. Only
/// those that take something off or widen the range are listed. The rules stand in knock_downs.cpp.
/// @throws std::invalid_argument naming the card, the condition and the remedy, where no rule
/// holds.
std::vector<KnockDown> knock_downs(const MaterialCard& card, const ServiceConditions& conditions);

/// Product of those that apply to "strength" or "modulus".
struct Kept {
  double value = 1.0;
  double low = 1.0;
  double high = 1.0;
};
Kept kept(const std::vector<KnockDown>& knock_downs, std::string_view applies);

}  // namespace crossgrain
