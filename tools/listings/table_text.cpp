// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/listings/table_text.h"

#include <algorithm>
#include <cassert>

namespace crossgrain {
namespace {

/// Of UTF-8: bytes that do not continue a character.
std::size_t width_of(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) >> 6) != 2; }));
}

struct Column {
  bool right;
  std::size_t width;
};

std::string line_text(const std::vector<Column>& columns, const std::vector<std::string>& cells) {
  assert(cells.size() == columns.size());
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const std::string padding(columns[i].width - width_of(cells[i]), ' ');
    line += "  " + (columns[i].right ? padding + cells[i] : cells[i] + padding);
  }
  return line.substr(0, line.find_last_not_of(' ') + 1) + '\n';
}

}  // namespace

std::string table_text(const std::vector<std::string>& headings,
                       const std::vector<std::vector<std::string>>& rows) {
  std::vector<Column> columns;
  std::vector<std::string> titles;
  for (const std::string& heading : headings) {
    const bool right = heading.front() == '>';
    titles.push_back(heading.substr(right ? 1 : 0));
    columns.push_back({right, width_of(titles.back())});
  }
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      columns[i].width = std::max(columns[i].width, width_of(row[i]));
    }
  }
  std::string text = line_text(columns, titles);
  for (const auto& row : rows) text += line_text(columns, row);
  return text;
}

}  // namespace crossgrain
