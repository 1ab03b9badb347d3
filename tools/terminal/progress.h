// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace crossgrain {

/// One line on standard error that says what the program is at; drawn on a terminal only, and not
/// when quiet.
class ProgressLine {
 public:
  explicit ProgressLine(bool quiet);
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  /// @param share  0..1, or negative if unknown.
  void show(const std::string& stage, double share = -1.0);
  /// Wipe the line, so that a log message or a result does not run into it.
  void clear();

 private:
  bool drawn_ = false;
  bool enabled_;
};

}  // namespace crossgrain
