// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/problems.h"

#include <algorithm>
#include <stdexcept>

namespace crossgrain {

void Problems::throw_if_any() const {
  if (found_.empty()) return;
  auto sorted = found_;
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  // One mistake can break many lines; nobody reads more than this.
  constexpr std::size_t shown = 20;
  std::string message;
  for (std::size_t i = 0; i < std::min(shown, sorted.size()); ++i) {
    message +=
        (i ? "\n" : "") + file_ + ":" + std::to_string(sorted[i].first) + ": " + sorted[i].second;
  }
  if (sorted.size() > shown) {
    message += "\nand " + std::to_string(sorted.size() - shown) + " more";
  }
  throw std::invalid_argument(message);
}

}  // namespace crossgrain
