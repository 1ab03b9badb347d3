// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace crossgrain {

/// Understands what a worker prints: our own stage lines, and Gmsh's log between them.
class WorkerOutput {
 public:
  void take(std::string_view text);

  std::string stage() const { return stage_; }
  double share() const { return share_; }
  /// The face being meshed, or the one that the last surface mesh ended with.
  std::optional<int> face() const { return face_; }
  bool on_a_face() const { return on_a_face_; }
  std::string last_lines() const;
  /// How long each stage took [s], the present one up to this moment.
  std::map<std::string, double> seconds() const;

 private:
  using Clock = std::chrono::steady_clock;
  void take_line(std::string_view line);

  std::string rest_;
  std::string stage_ = "starting";
  Clock::time_point stage_began_ = Clock::now();
  std::map<std::string, double> seconds_of_ended_;
  double share_ = -1.0;
  std::optional<int> face_;
  bool on_a_face_ = false;
  std::deque<std::string> lines_;
};

}  // namespace crossgrain
