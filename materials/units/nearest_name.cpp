// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/units/nearest_name.h"

#include <algorithm>
#include <cctype>
#include <numeric>
#include <utility>

namespace crossgrain {
namespace {

/// Letters to insert, drop, change or swap with their neighbour, without regard to capitals.
std::size_t edits_between(std::string_view a, std::string_view b) {
  const auto same = [](unsigned char x, unsigned char y) {
    return std::tolower(x) == std::tolower(y);
  };
  std::vector<std::size_t> before_last;
  std::vector<std::size_t> last(b.size() + 1);
  std::iota(last.begin(), last.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::vector<std::size_t> row{i + 1};
    for (std::size_t j = 0; j < b.size(); ++j) {
      std::size_t edits =
          std::min({last[j] + (same(a[i], b[j]) ? 0 : 1), last[j + 1] + 1, row[j] + 1});
      if (i > 0 && j > 0 && same(a[i], b[j - 1]) && same(a[i - 1], b[j]))
        edits = std::min(edits, before_last[j - 1] + 1);
      row.push_back(edits);
    }
    before_last = std::exchange(last, std::move(row));
  }
  return last.back();
}

}  // namespace

std::optional<std::string> nearest_name(std::string_view word,
                                        const std::vector<std::string>& known) {
  std::optional<std::string> nearest;
  std::size_t fewest = std::max<std::size_t>(1, word.size() / 3) + 1;
  for (const std::string& name : known) {
    const std::size_t edits = edits_between(word, name);
    if (edits >= fewest) continue;
    fewest = edits;
    nearest = name;
  }
  return nearest;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known) {
  const auto nearest = nearest_name(word, known);
  return nearest ? " (did you mean \"" + *nearest + "\"?)" : "";
}

}  // namespace crossgrain
