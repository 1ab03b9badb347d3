// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <map>
#include <string>

namespace crossgrain {

/// Wall-clock seconds of one stage after the other.
class Stopwatch {
 public:
  /// Ends the stage that has run since the last lap, under this name.
  void lap(const std::string& stage) {
    const auto now = std::chrono::steady_clock::now();
    laps_[stage] += std::chrono::duration<double>(now - last_).count();
    last_ = now;
  }
  /// What has run since the last lap is counted elsewhere.
  void skip() { last_ = std::chrono::steady_clock::now(); }
  const std::map<std::string, double>& laps() const { return laps_; }

 private:
  std::chrono::steady_clock::time_point last_ = std::chrono::steady_clock::now();
  std::map<std::string, double> laps_;
};

}  // namespace crossgrain
