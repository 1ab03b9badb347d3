// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/yardstick.h"

#include <algorithm>
#include <set>

namespace crossgrain {

bool judges(FailureMode mode, const Strength& strength, Criterion criterion) {
  if (mode == FailureMode::tsai_wu) return std::holds_alternative<LayeredStrength>(strength);
  const auto modes = governing_modes(strength, criterion);
  return std::ranges::find(modes, mode) != modes.end();
}

std::vector<FailureMode> modes_of(const Yardstick& yardstick, bool second_opinion) {
  std::set<FailureMode> modes;
  for (const auto& strength : yardstick.strength_of_body) {
    for (const auto mode : governing_modes(strength, yardstick.criterion)) modes.insert(mode);
    if (second_opinion && std::holds_alternative<LayeredStrength>(strength)) {
      modes.insert(FailureMode::tsai_wu);
    }
  }
  return {modes.begin(), modes.end()};
}

}  // namespace crossgrain
