// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace crossgrain {

// What the user typed, one struct a command.

struct InspectOptions {
  std::filesystem::path part;  ///< a STEP file, or a case file
  double scale = 1.0;
  std::vector<double> fluid_at;  ///< x y z [mm] of a point in a fluid; empty: none
  std::vector<int> stops;        ///< faces that the fluid does not enter
  std::filesystem::path page;    ///< to write a page to click faces on; empty: none
};

struct BeginOptions {
  std::filesystem::path step_file;
  std::filesystem::path case_file;  ///< default: beside the STEP file, same stem
  std::string card = "petg";
};

struct RunOptions {
  std::filesystem::path case_file;
  std::optional<std::filesystem::path>
      results;  ///< default: <case>-results in the current directory
};

struct DirectionsOptions {
  std::filesystem::path case_file;
  std::optional<std::filesystem::path> results;
};

struct MaterialOptions {
  std::string card;  ///< empty: list them all
};

struct CompareOptions {
  std::filesystem::path run_a;
  std::filesystem::path run_b;
};

/// Holds for every command.
struct CommonOptions {
  bool json = false;
  bool quiet = false;
  int threads = 0;  ///< 0: all cores
  std::string units = "MPa";
};

using Command = std::variant<InspectOptions, BeginOptions, RunOptions, DirectionsOptions,
                             MaterialOptions, CompareOptions>;

struct CommandLine {
  CommonOptions common;
  Command command;
};

/// Parse the arguments; prints help, version or a usage error itself.
/// @return the command line, or the exit status to end with (0 help, 2 usage error).
std::variant<CommandLine, int> parse_command_line(int argc, char** argv);

}  // namespace crossgrain
