// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "cases/judgement/run_result.h"
#include "cases/studies/direction_map.h"
#include "cases/studies/mapped_prints.h"
#include "tools/story/prepared_case.h"

namespace crossgrain {

/// What is known of print directions: rows that were solved fully, and the maps of all directions
/// that they were found on, if the case names none.
struct DirectionStory {
  std::vector<DirectionRow> rows;
  std::vector<MappedPrint> maps;
  std::vector<FaceId> cavity;  ///< that overhangs were held against
};

/// The story of a comparison of print directions: those that the case names, each solved fully, or
/// without names a map of all for every print, its best and worst then solved fully, and the best
/// of all prints together; and what a printer asks of each direction.
/// @return rows: the case as it is first, as "as in the case", unless it is among those named; then
/// in the order the case names them, or print by print.
/// @throws std::invalid_argument as run_story does; Interrupted.
DirectionStory directions_story(PreparedCase& prepared, int threads, ProgressLine& progress);

}  // namespace crossgrain
