// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

namespace crossgrain {

/// Look at a file before the kernel does: the kernel is silent on empty and truncated files.
/// @throws std::invalid_argument if it is missing, a directory, unreadable, empty, no STEP file
/// (ISO 10303-21) or cut short.
void check_step_file(const std::filesystem::path& file);

}  // namespace crossgrain
