// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "tools/results/directions_text.h"

namespace crossgrain {

/// directions.html: print directions to look at. Holds directions.json as it is, the part's surface
/// to stand it on the plate in any direction, and of a map every direction's values in full.
/// @param directions  content of directions.json.
/// @throws std::runtime_error naming the key whose number is not finite.
std::string directions_page(const DirectionOutputs& outputs, const std::string& directions,
                            const ReadingUnits& units);

}  // namespace crossgrain
