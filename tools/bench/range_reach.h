// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <functional>
#include <nlohmann/json_fwd.hpp>

namespace crossgrain::bench {

/// What the ranges of constants cost in cold solves' time (set-up and solution of all loads to
/// 1e-8), the effect of each constant included; what was foretold of each constant beside a full
/// solution at its ends; and whether the solids that the range was looked for at are the worst and
/// the best of all corners.
/// @param case_file  of bodies that are not joined; its mesh is not refined.
/// @param print      takes a line of results.
void measure_ranges(const std::filesystem::path& case_file,
                    const std::function<void(const nlohmann::json&)>& print);

}  // namespace crossgrain::bench
