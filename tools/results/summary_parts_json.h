// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tools/results/json_parts.h"

namespace crossgrain {

// Private to tools/results: the larger values of summary.json, in the order of that file.

/// Every load case: factors, allowable pressure, greatest displacement, its files of fields.
Json load_cases_json(const RunResult& result);
/// Every body: mass, print direction, material at its conditions with what was assumed of it.
Json bodies_json(const RunResult& result);
/// The thrust of the fluid at each opening, and what carries it.
Json openings_json(const RunResult& result);
/// The force and the moment that each support gives, by load case.
Json reactions_json(const RunResult& result);
/// Displacement and stress at the points that the case asks about.
Json probes_json(const RunResult& result);
/// What the joint is held to, and its torque window; null without one.
Json joint_json(const RunResult& result);
Json joint_history_json(const JointHistory& history);
/// null without one.
Json hand_calculation_json(const RunResult& result);
/// Size and quality of the last mesh, and every mesh of the run.
Json mesh_report_json(const RunOutputs& outputs);

}  // namespace crossgrain
