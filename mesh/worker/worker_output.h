// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <deque>
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

 private:
  void take_line(std::string_view line);

  std::string rest_;
  std::string stage_ = "starting";
  double share_ = -1.0;
  std::optional<int> face_;
  bool on_a_face_ = false;
  std::deque<std::string> lines_;
};

}  // namespace crossgrain
