// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tools/story/solved_case.h"

namespace crossgrain {

/// Solve, judge, and again on finer meshes while the case file's `[mesh]` asks for it and its
/// limits allow. Each pass is noted in `result.mesh_passes`.
/// @param prepared  ends as the case on the last mesh.
std::unique_ptr<SolvedCase> refine_case(PreparedCase& prepared, int threads, ProgressLine& progress,
                                        Stopwatch& stopwatch, RunResult& result);

}  // namespace crossgrain
