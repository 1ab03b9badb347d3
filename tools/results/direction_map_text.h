// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "tools/results/directions_text.h"
#include "tools/results/json_parts.h"

namespace crossgrain {

/// How far the map was off where that was tried, and what its error is put at, in sentences.
std::string map_reliance(const DirectionMap& map);

/// What the files of each map are called without their endings: directions_map, and of several
/// prints with their names.
std::vector<std::string> map_files(const std::vector<MappedPrint>& maps);

/// How far the map can be relied on, and the directions that no other beats in every column: the
/// strongest of them, and those that cost the printer least.
/// @param mapped  of the outputs.  @param files  of it.
std::string direction_map_markdown(const DirectionOutputs& outputs, const MappedPrint& mapped,
                                   const std::string& files);

/// How the map came about and how far it can be relied on; its values are in the CSV.
Json direction_map_json(const DirectionOutputs& outputs, const MappedPrint& mapped,
                        const std::string& files);

/// One line per direction of the map: the factors by mode, their estimated error, what a printer
/// asks, whether it is unbeaten. An empty field: no limit found, or the mode judges nothing.
std::string direction_map_csv(const MappedPrint& mapped);

/// A line for each direction and load case.
std::string direction_map_cases_csv(const MappedPrint& mapped);

/// The map with the directions marked on it in which its print was solved.
std::string direction_map_picture(const DirectionOutputs& outputs, const MappedPrint& mapped);

}  // namespace crossgrain
