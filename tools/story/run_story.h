// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/run_result.h"
#include "tools/story/prepared_case.h"

namespace crossgrain {

/// The story of a run, from a prepared case to its conclusions: solve, judge every load case with
/// its ranges, compare with the shortcuts, check the balance, draw the verdict.
/// @param prepared  its loading's material-dependent parts are renewed on the way.
/// @throws std::invalid_argument if a part that nothing holds has loads out of balance;
/// Interrupted.
RunResult run_story(PreparedCase& prepared, int threads, ProgressLine& progress);

}  // namespace crossgrain
