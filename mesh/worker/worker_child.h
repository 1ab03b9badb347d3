// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

namespace crossgrain {

/// The child's side. The parent starts its own program (/proc/self/exe) again with a worker's
/// arguments, so every program that imports or meshes, the tests' included, calls this first thing
/// in main().
/// @return the exit status to end with, or nullopt if the arguments are not a worker's.
std::optional<int> run_as_mesh_worker(int argc, char** argv);

}  // namespace crossgrain
