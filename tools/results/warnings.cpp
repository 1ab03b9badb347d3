// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/warnings.h"

#include "tools/results/number_text.h"

namespace crossgrain {

std::vector<std::string> all_warnings(const RunOutputs& outputs) {
  std::vector<std::string> warnings = outputs.result.warnings;
  const Conditions& conditions = outputs.case_file.conditions;
  if (conditions.medium == Medium::gas) {
    const auto& stored = outputs.result.stored_energy;
    const std::string energy =
        stored ? number_text(stored->total_J()) + " J" : "energy (not known here how much)";
    warnings.insert(warnings.begin(),
                    "GAS INSIDE (" + conditions.medium_name + "): the part stores " + energy +
                        " and bursts like a small explosive. Test it with water, air bled, from "
                        "behind a barrier; never with gas while anyone is near.");
  }
  return warnings;
}

}  // namespace crossgrain
