// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "tools/results/directions_text.h"
#include "tools/results/json_parts.h"

namespace crossgrain {

/// How far the map was off where that was tried, and what its error is put at, in sentences.
std::string map_reliance(const DirectionMap& map);

/// How far the map can be relied on, and the directions that no other beats in every column: the
/// strongest of them, and those that cost the printer least.
/// @param map  of outputs that have one.
std::string direction_map_markdown(const DirectionOutputs& outputs, const DirectionMap& map);

/// How the map came about and how far it can be relied on; its values are in the CSV.
Json direction_map_json(const DirectionMap& map);

/// One line per direction of the map: the factors by mode, their estimated error, what a printer
/// asks, whether it is unbeaten. An empty field: no limit found, or the mode judges nothing.
std::string direction_map_csv(const DirectionOutputs& outputs, const DirectionMap& map);

/// The map with the directions of the table marked on it.
/// A line for each direction and load case.
std::string direction_map_cases_csv(const DirectionOutputs& outputs, const DirectionMap& map);

std::string direction_map_picture(const DirectionOutputs& outputs, const DirectionMap& map);

}  // namespace crossgrain
