// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "tools/results/pressure_units.h"
#include "tools/results/run_outputs.h"

namespace crossgrain {

/// The content of summary.md: the run for reading on paper. The verdict, one number and its range
/// come first.
std::string summary_text(const RunOutputs& outputs, const ReadingUnits& units);

}  // namespace crossgrain
