// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "tools/results/markdown.h"
#include "tools/results/summary_sections.h"

namespace crossgrain {

std::string time_section(const RunOutputs& outputs) {
  using Stage = std::pair<std::string, double>;
  const std::string whole = "import and mesh", part_mark = whole + ": ";
  std::vector<Stage> stages;
  double sum = 0.0, parts = 0.0;
  for (const auto& [name, seconds] : outputs.result.seconds) {
    const bool part = name.compare(0, part_mark.size(), part_mark) == 0;
    (part ? parts : sum) += seconds;
    if (name != whole) stages.emplace_back(part ? name.substr(part_mark.size()) : name, seconds);
  }
  const auto found = outputs.result.seconds.find(whole);
  if (found != outputs.result.seconds.end())
    stages.emplace_back("import and mesh, the rest", std::max(0.0, found->second - parts));
  std::stable_sort(stages.begin(), stages.end(),
                   [](const Stage& a, const Stage& b) { return a.second > b.second; });
  MarkdownTable table({"stage", "s"});
  for (const auto& [name, seconds] : stages)
    if (seconds > 0.01 * sum) table.add({name, fmt::format("{:.1f}", seconds)});
  if (!(sum > 0.0)) return "";
  return fmt::format("## Where {:.1f} s went\n\n", sum) + table.text();
}

}  // namespace crossgrain
