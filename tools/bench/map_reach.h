// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <functional>
#include <nlohmann/json_fwd.hpp>

namespace crossgrain::bench {

/// What a map of all print directions costs, in cold solves' time (set-up and solution of all
/// loads for one direction to 1e-8), its held-out and confirming solutions counted; and by how much
/// its factors are truly off, mode by mode, in directions that it was not built from.
/// @param case_file  of one body.
/// @param tolerance  that the map is asked for, of a factor.
/// @param print      takes a line of results.
void measure_map(const std::filesystem::path& case_file, double tolerance,
                 const std::function<void(const nlohmann::json&)>& print);

}  // namespace crossgrain::bench
