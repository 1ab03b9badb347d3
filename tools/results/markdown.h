// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace crossgrain {

/// A table that reads as one on paper, too: columns padded to equal width. Cells are taken as they
/// are: pass what others wrote through markdown_text first.
class MarkdownTable {
 public:
  explicit MarkdownTable(std::vector<std::string> header) : rows_{std::move(header)} {}
  /// @param row  as many cells as the header has.
  void add(std::vector<std::string> row);
  bool empty() const { return rows_.size() == 1; }
  /// Ends with an empty line.
  std::string text() const;

 private:
  std::vector<std::vector<std::string>> rows_;  ///< header first
};

/// A paragraph in lines of at most `width` characters where words allow, each after the first begun
/// with `indent`. Ends with one line break.
std::string wrapped(std::string_view text, std::string_view indent = "", std::size_t width = 92);

/// One item of a list: `marker`, then `text` wrapped under itself. Text is taken as it is.
std::string list_item(std::string_view marker, std::string_view text);

/// "- " items, wrapped; ends with an empty line unless there are none. Items pass through
/// markdown_text.
std::string bullet_list(const std::vector<std::string>& items);

}  // namespace crossgrain
