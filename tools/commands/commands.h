// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tools/commands/options.h"

namespace crossgrain {

// Every command prints its answer on standard output and returns the exit status. What the user got
// wrong leaves as std::invalid_argument, what the program got wrong as any other exception: main
// turns them into messages and statuses.

int inspect(const InspectOptions& options, const CommonOptions& common);
int begin(const BeginOptions& options, const CommonOptions& common);
int run(const RunOptions& options, const CommonOptions& common);
int directions(const DirectionsOptions& options, const CommonOptions& common);
int material(const MaterialOptions& options, const CommonOptions& common);
int compare(const CompareOptions& options, const CommonOptions& common);

/// Where a command's results go: as asked, else <case>-results in the current directory.
std::filesystem::path results_directory(const std::filesystem::path& case_file,
                                        const std::optional<std::filesystem::path>& asked);

}  // namespace crossgrain
