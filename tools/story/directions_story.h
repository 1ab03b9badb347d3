// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/judgement/run_result.h"
#include "tools/story/prepared_case.h"

namespace crossgrain {

/// The story of a comparison of named print directions: one factorisation a direction and material
/// set on the mesh that is there, then what a printer asks of each direction.
/// @return rows in the order the case names them; the case's own print direction first, as "as in
/// the case".
/// @throws std::invalid_argument as run_story does; Interrupted.
std::vector<DirectionRow> directions_story(PreparedCase& prepared, int threads,
                                           ProgressLine& progress);

}  // namespace crossgrain
