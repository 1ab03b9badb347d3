// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "cases/judgement/run_result.h"
#include "cases/studies/direction_map.h"
#include "cases/studies/trade_offs.h"
#include "tools/story/prepared_case.h"

namespace crossgrain {

/// What is known of print directions: rows that were solved fully, and the map of all directions
/// that they were found on, if the case names none.
struct DirectionStory {
  std::vector<DirectionRow> rows;
  std::optional<DirectionMap> map;
  std::vector<TradeOff> trade_offs;  ///< of the map's directions
  std::vector<FaceId> cavity;        ///< that overhangs were held against
};

/// The story of a comparison of print directions: those that the case names, each solved fully, or
/// without names a map of all, its best and worst then solved fully; and what a printer asks of
/// each direction.
/// @return rows: the case's own print direction first, as "as in the case", then in the order the
/// case names them.
/// @throws std::invalid_argument as run_story does, for several bodies without names; Interrupted.
DirectionStory directions_story(PreparedCase& prepared, int threads, ProgressLine& progress);

}  // namespace crossgrain
