// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/worker/worker_arguments.h"

#include <cstdlib>
#include <string_view>

namespace crossgrain {
namespace {

constexpr std::string_view worker_word = "--as-mesh-worker";

}  // namespace

std::vector<std::string> worker_arguments(const WorkerArguments& arguments) {
  return {"crossgrain-mesher", std::string(worker_word), std::to_string(arguments.parent),
          std::to_string(arguments.request), std::to_string(arguments.answer)};
}

std::optional<WorkerArguments> parse_worker_arguments(int argc, char** argv) {
  if (argc != 5 || argv[1] != worker_word || !std::getenv(worker_environment_mark))
    return std::nullopt;
  return WorkerArguments{std::atoi(argv[2]), std::atoi(argv[3]), std::atoi(argv[4])};
}

}  // namespace crossgrain
