// SPDX-License-Identifier: GPL-3.0-or-later
#include <spdlog/sinks/stdout_color_sinks.h>
#include <spdlog/spdlog.h>

#include <exception>
#include <iostream>
#include <stdexcept>

#include "mesh/worker/worker_child.h"
#include "tools/commands/commands.h"
#include "tools/terminal/interrupt.h"

namespace {

using namespace crossgrain;

constexpr int kInputAtFault = 2;
constexpr int kProgramFailed = 3;
constexpr int kInterrupted = 130;  // the shell's custom: 128 + SIGINT

void log_on_standard_error(bool quiet) {
  auto log = spdlog::stderr_color_mt("crossgrain");
  log->set_pattern("crossgrain: %^%l%$: %v");
  log->set_level(quiet ? spdlog::level::warn : spdlog::level::info);
  spdlog::set_default_logger(std::move(log));
}

struct Dispatch {
  const CommonOptions& common;
  int operator()(const InspectOptions& options) const { return inspect(options, common); }
  int operator()(const BeginOptions& options) const { return begin(options, common); }
  int operator()(const RunOptions& options) const { return run(options, common); }
  int operator()(const DirectionsOptions& options) const { return directions(options, common); }
  int operator()(const MaterialOptions& options) const { return material(options, common); }
  int operator()(const CompareOptions& options) const { return compare(options, common); }
};

/// A full disk or a closed pipe shows only as the last of the answer is handed over.
void require_printed() {
  if (!std::cout.flush())
    throw std::invalid_argument(
        "standard output could not be written; make room, or send it elsewhere");
}

int run_command(const CommandLine& line) try {
  const int status = std::visit(Dispatch{line.common}, line.command);
  require_printed();
  return status;
} catch (const Interrupted&) {
  spdlog::warn("interrupted; nothing was left behind");
  return kInterrupted;
} catch (const std::invalid_argument& error) {
  spdlog::error("{}", error.what());
  return kInputAtFault;
} catch (const std::exception& error) {
  spdlog::critical("the program failed: {}", error.what());
  return kProgramFailed;
}

}  // namespace

int main(int argc, char** argv) try {
  // The importing and meshing child is this same program started again.
  if (const auto status = run_as_mesh_worker(argc, argv)) return *status;
  const auto parsed = parse_command_line(argc, argv);
  if (const int* status = std::get_if<int>(&parsed)) return *status;
  const CommandLine& line = std::get<CommandLine>(parsed);
  log_on_standard_error(line.common.quiet);
  catch_interrupts();
  return run_command(line);
} catch (...) {
  std::fputs("crossgrain: the program failed before it could say why\n", stderr);
  return kProgramFailed;
}
