// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/run_outputs.h"

#include <algorithm>

#include "cases/judgement/verdict_sentence.h"
#include "tools/results/plain_text.h"

namespace crossgrain {

std::size_t governing_case_index(const RunResult& result) {
  return static_cast<std::size_t>(std::max(0, least_case(result)));
}

std::vector<CaseFileNames> case_file_names(const RunResult& result) {
  const std::size_t governing = governing_case_index(result);
  std::vector<CaseFileNames> names;
  for (std::size_t i = 0; i < result.cases.size(); ++i) {
    // The number keeps apart cases whose names differ only in what a file name cannot hold.
    const std::string suffix =
        i == governing ? ""
                       : "_" + std::to_string(i + 1) + "_" + file_name_part(result.cases[i].name);
    names.push_back(
        {"fields" + suffix + ".vtu", "faces" + suffix + ".vtp", "joint" + suffix + ".vtp"});
  }
  return names;
}

}  // namespace crossgrain
