// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

namespace crossgrain {

/// How far a map of directions may be off, direction by direction: in proportion to how much its
/// factors change when some of the solutions behind it are left out, as much as directions that
/// were solved and held against the map showed.
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

  /// The map was off by so much in a direction looked at, with the changes set last.
  void hold_against(Eigen::Index direction, double off);

  /// By which the factor may be off in a direction looked at. Zero before anything was held against
  /// it.
  double error(Eigen::Index direction) const { return error_of_change_ * change_[direction]; }

 private:
  const Eigen::Matrix3Xd& directions_;
  std::vector<double> change_;  ///< of all directions
  double error_of_change_ = 0.0;
};

}  // namespace crossgrain
