// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sys/types.h>

#include <optional>
#include <string>
#include <vector>

namespace crossgrain {

/// Set in a worker's environment: a program whose main() forgot run_as_mesh_worker() would
/// otherwise start itself without end.
inline constexpr const char* worker_environment_mark = "CROSSGRAIN_MESH_WORKER";

/// How a worker is told where its work is: open file descriptors of its parent.
struct WorkerArguments {
  pid_t parent;
  int request;
  int answer;
};

std::vector<std::string> worker_arguments(const WorkerArguments& arguments);
/// @return nullopt if these are not a worker's.
std::optional<WorkerArguments> parse_worker_arguments(int argc, char** argv);

}  // namespace crossgrain
