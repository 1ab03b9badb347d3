// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/compare.h"

#include <iostream>

#include "tools/commands/commands.h"
#include "tools/results/compare_text.h"
#include "tools/results/read_summary.h"

namespace crossgrain {

int compare(const CompareOptions& options, const CommonOptions& common) {
  const ReadingUnits units = parse_reading_units(common.units);
  const Comparison comparison =
      compare_runs(read_run_summary(options.run_a), read_run_summary(options.run_b));
  std::cout << (common.json ? comparison_json(comparison) : comparison_text(comparison, units));
  return 0;
}

}  // namespace crossgrain
