// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "cases/studies/compare.h"

namespace crossgrain {

/// Read back what a finished run's summary.json holds that is worth comparing.
/// @param run  the run's directory, or the file itself. Names come back as plain text on one line.
/// @throws std::invalid_argument naming the file and what is wrong with it: missing, not JSON, of
/// another schema version, a key missing or of the wrong kind.
RunSummary read_run_summary(const std::filesystem::path& run);

}  // namespace crossgrain
