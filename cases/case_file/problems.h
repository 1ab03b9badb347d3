// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace crossgrain {

/// What is wrong with a case file, gathered so that one run names everything at once.
class Problems {
 public:
  explicit Problems(std::string file) : file_(std::move(file)) {}

  /// @param what  where, what and the remedy: "[[pressure]] value = 0.4: ...; ..."
  void add(int line, std::string what) { found_.emplace_back(line, std::move(what)); }

  bool none() const { return found_.empty(); }
  const std::string& file() const { return file_; }

  /// @throws std::invalid_argument with one "file:line: ..." a line, in the order of the file.
  void throw_if_any() const;

 private:
  std::string file_;
  std::vector<std::pair<int, std::string>> found_;
};

}  // namespace crossgrain
