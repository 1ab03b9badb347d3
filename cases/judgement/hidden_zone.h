// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "cases/judgement/judged_cases.h"

namespace crossgrain {

/// Worst places near artificial supports and loads at which a service case's factor is below the
/// governing one, weakest first.
std::vector<ModeResult> weaker_near_supports(const RunResult& result);

/// The weakest of them that the mesh does not resolve, nor another place at the same support whose
/// factor is alike. A bead width away stress counts again, and with elements longer than that no
/// point is there to judge it.
std::optional<HiddenZone> hidden_zone(const RunResult& result, const JudgedModel& model);

}  // namespace crossgrain
