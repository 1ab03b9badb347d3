// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "cases/studies/compare.h"
#include "tools/results/pressure_units.h"

namespace crossgrain {

/// Two runs side by side as Markdown: what to make of it, what differs in the case, what comes out.
std::string comparison_text(const Comparison& comparison, const ReadingUnits& units);

/// The same for scripts: {"sentences": [...], "settings": [...], "results": [...]}, the values as
/// text.
std::string comparison_json(const Comparison& comparison);

}  // namespace crossgrain
