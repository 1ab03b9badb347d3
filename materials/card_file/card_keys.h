// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "materials/card_file/card.h"
#include "materials/units/quantity.h"

namespace crossgrain {

/// What a number must satisfy whatever the material.
enum class Bound { positive, poisson, any };

/// A number that a card may carry in [dry] and [conditioned].
struct CardKey {
  std::string_view name;
  Dimension dimension;
  Bound bound;
  bool required;
  std::string_view unit;  ///< internal unit, for reading: "MPa", "-", "1/K", "tonne/mm^3"
  std::string_view meaning;
};

/// The numbers that fit a kind of material.
const std::vector<CardKey>& keys_of(MaterialKind kind);

/// A key of that kind by name; null if there is none.
const CardKey* find_key(MaterialKind kind, std::string_view name);

/// What to write in place of a key that could mean several things for layered material ("nu").
std::optional<std::string> remedy_for_ambiguous_key(std::string_view name);

}  // namespace crossgrain
