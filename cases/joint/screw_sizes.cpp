// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/screw_sizes.h"

#include <algorithm>

namespace crossgrain {

const std::vector<ScrewSize>& screw_sizes() {
  // Stress areas and pitches: ISO 898-1, read there. Heads, washers and holes: ISO 4762, ISO 7089
  // and ISO 273 (medium), from memory.
  static const std::vector<ScrewSize> sizes = {
      {"M3", 3.0, 0.5, 5.03, 5.07, 7.0, 3.2, 0.5, 3.4},
      {"M4", 4.0, 0.7, 8.78, 6.53, 9.0, 4.3, 0.8, 4.5},
      {"M5", 5.0, 0.8, 14.2, 8.03, 10.0, 5.3, 1.0, 5.5},
      {"M6", 6.0, 1.0, 20.1, 9.38, 12.0, 6.4, 1.6, 6.6},
      {"M8", 8.0, 1.25, 36.6, 12.33, 16.0, 8.4, 1.6, 9.0},
      {"M10", 10.0, 1.5, 58.0, 15.33, 20.0, 10.5, 2.0, 11.0},
  };
  return sizes;
}

const ScrewSize* find_screw_size(std::string_view name) {
  const auto& sizes = screw_sizes();
  const auto it = std::find_if(sizes.begin(), sizes.end(),
                               [name](const ScrewSize& size) { return size.name == name; });
  return it == sizes.end() ? nullptr : &*it;
}

std::string known_screw_sizes() {
  std::string list;
  for (const ScrewSize& size : screw_sizes()) {
    list += (list.empty() ? "" : ", ") + std::string(size.name);
  }
  return list;
}

}  // namespace crossgrain
