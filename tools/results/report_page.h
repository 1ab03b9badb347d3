// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "tools/results/pressure_units.h"
#include "tools/results/run_outputs.h"

namespace crossgrain {

/// report.html: what a run found, to look at. Holds summary.json as it is, and the mesh with the
/// fields of every load case, rounded: factors to a part in 8000, the rest to 12 bits, or to fewer
/// where the page would grow beyond page_size_wanted. The page says how far values may be off.
/// @param summary  content of summary.json.
std::string report_page(const RunOutputs& outputs, const std::string& summary,
                        const ReadingUnits& units);

/// [bytes] A page is made coarser rather than larger, down to what colours need.
inline constexpr std::size_t page_size_wanted = 8'000'000;

}  // namespace crossgrain
