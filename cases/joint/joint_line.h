// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <string_view>

#include "cases/joint/limit_standing.h"
#include "cases/joint/preload.h"

namespace crossgrain {

/// What a joint may fail by.
enum class JointMode {
  seal_at_assembly,
  seal_in_service,
  gasket_crushed,
  bearing,
  screw_yield,
  screw_proof,
  pull_out,
  tear_off,
  hoop_split,
  torque_out,
  boss_wall,
  screw_bottoms,
  flange_bow,
  screw_pitch,
};

/// Stable name for files: "seal_in_service".
std::string_view name_of(JointMode mode);
/// For reading: "leak past the seal".
std::string_view words(JointMode mode);
/// What to do about it, in a workshop's words.
std::string_view remedy(JointMode mode);
/// "MPa", "N", "N mm", "mm", "-"
std::string_view unit_of(JointMode mode);
/// Whether the value must reach its limit (a seal, a wall) instead of keeping below it.
bool must_reach(JointMode mode);

/// A number that a joint is held to.
struct JointLimit {
  double value;
  LimitStanding standing;
  std::string source;  ///< rule or place in words
};

/// One judgement on the joint.
struct JointLine {
  JointMode mode;
  std::string owner;  ///< screw group or seal, by its name in the case
  double value;
  JointLimit limit;
  std::string state;                     ///< "service, hot"; empty if it holds in all of them
  std::optional<PreloadLevel> level;     ///< none where preload plays no part
  std::optional<Eigen::Vector3d> place;  ///< the last hold of a leak path [mm]
  std::string note;                      ///< "leaks to a screw hole"

  /// NaN never holds.
  bool holds() const;
  /// Of the limit that is used up: 1 at it; infinite where a seal has no contact left, NaN if the
  /// value is none.
  double use() const;
};

}  // namespace crossgrain
