// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <nlohmann/json_fwd.hpp>

#include "tools/bench/bench_part.h"

namespace crossgrain::bench {

/// What a solution of one direction more costs, in a cold solve's time (to 1e-8, the set-up
/// counted), when the corners are solved for the best isotropic solid and iterations start from the
/// answer of the directions before; and how near in energy the reduced answer is to directions held
/// out.
/// @param print  takes a line of results.
void time_directions(const Part& part, int snapshots,
                     const std::function<void(const nlohmann::json&)>& print);

}  // namespace crossgrain::bench
