// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/markdown.h"

#include <algorithm>
#include <cassert>

#include "tools/results/plain_text.h"

namespace crossgrain {
namespace {

/// Characters, not bytes: continuation bytes of UTF-8 take no room.
std::size_t width_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

}  // namespace

void MarkdownTable::add(std::vector<std::string> row) {
  assert(row.size() == rows_.front().size());
  rows_.push_back(std::move(row));
}

std::string MarkdownTable::text() const {
  std::vector<std::size_t> widths(rows_.front().size(), 3);
  for (const auto& row : rows_) {
    for (std::size_t c = 0; c < row.size(); ++c) widths[c] = std::max(widths[c], width_of(row[c]));
  }
  std::string out;
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    for (std::size_t c = 0; c < widths.size(); ++c) {
      out += "| " + rows_[r][c] + std::string(widths[c] - width_of(rows_[r][c]), ' ') + ' ';
    }
    out += "|\n";
    if (r > 0) continue;
    for (const std::size_t width : widths) out += "|" + std::string(width + 2, '-');
    out += "|\n";
  }
  return out + "\n";
}

std::string wrapped(std::string_view text, std::string_view indent, std::size_t width) {
  std::string out;
  std::size_t used = 0;
  while (!text.empty()) {
    const std::string_view word = text.substr(0, text.find(' '));
    text.remove_prefix(std::min(text.size(), word.size() + 1));
    if (word.empty()) continue;
    const std::size_t length = width_of(word);
    if (used > 0 && used + 1 + length > width) {
      out += "\n" + std::string(indent);
      used = width_of(indent);
    } else if (used > 0) {
      out += ' ';
      ++used;
    }
    out += word;
    used += length;
  }
  return out + "\n";
}

std::string list_item(std::string_view marker, std::string_view text) {
  return wrapped(std::string(marker) + " " + std::string(text),
                 std::string(marker.size() + 1, ' '));
}

std::string bullet_list(const std::vector<std::string>& items) {
  std::string out;
  for (const std::string& item : items) out += list_item("-", markdown_text(item));
  return out.empty() ? out : out + "\n";
}

}  // namespace crossgrain
