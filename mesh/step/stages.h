// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace crossgrain {

/// Called about twice a second with the stage in words and the share done (0..1, or negative if
/// unknown).
using Progress = std::function<void(const std::string& stage, double share)>;

/// Begins a line that announces a stage; the share and the words follow.
inline constexpr std::string_view stage_mark = "@stage ";

/// The child's side of the pipe: tells the parent what is being done.
void announce_stage(const std::string& stage, double share);

}  // namespace crossgrain
