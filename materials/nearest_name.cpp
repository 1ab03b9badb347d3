// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/nearest_name.h"

#include <algorithm>
#include <cctype>
#include <numeric>

namespace crossgrain {
namespace {

/// Levenshtein distance without regard to capitals.
std::size_t edits_between(std::string_view a, std::string_view b) {
  const auto same = [](unsigned char x, unsigned char y) {
    return std::tolower(x) == std::tolower(y);
  };
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t changed = diagonal + (same(a[i], b[j]) ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({changed, row[j] + 1, diagonal + 1});
    }
  }
  return row.back();
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
  return nearest ? ", did you mean \"" + *nearest + "\"?" : "";
}

}  // namespace crossgrain
