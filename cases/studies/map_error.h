// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

namespace crossgrain {

/// How far a map of directions may be off, direction by direction: as far as the directions that
/// were solved last and held against the map were, and the more, the more its factors change there
/// when some of the solutions behind it are left out.
class MapError {
 public:
  /// @param directions  3 x n, of unit length.
  explicit MapError(const Eigen::Matrix3Xd& directions) : directions_(directions) {}

  /// Take how much factors change, relative. A change may pass through zero on its way from one
  /// sign to the other: what counts is the root mean square of a direction's neighbourhood.
  /// @param looked_at  which of the directions, their opposites meant as well.
  /// @param changes    of each of these.
  void set_changes(const std::vector<Eigen::Index>& looked_at, const std::vector<double>& changes);
  /// Of a direction looked at, over its neighbourhood.
  double change(Eigen::Index direction) const { return change_[direction]; }

  /// The map was off by so much in a direction that was solved.
  void hold_against(double off) { off_.push_back(off); }

  /// By which the factor may be off in a direction looked at. Zero before anything was held against
  /// the map.
  double error(Eigen::Index direction) const;

 private:
  const Eigen::Matrix3Xd& directions_;
  std::vector<double> change_;  ///< of all directions
  double mean_change_ = 0.0;    ///< of those looked at
  std::vector<double> off_;     ///< in the order they were found
};

}  // namespace crossgrain
