// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "tools/results/run_outputs.h"

namespace crossgrain {

/// The run's warnings as every output shows them: with a gas inside, what that means comes first.
std::vector<std::string> all_warnings(const RunOutputs& outputs);

}  // namespace crossgrain
