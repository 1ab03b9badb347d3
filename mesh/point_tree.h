// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <memory>
#include <vector>

namespace crossgrain {

/// Finds the nearest of many points. Points are numbered in the order in which they come.
class PointTree {
 public:
  PointTree();
  ~PointTree();
  PointTree(PointTree&&) noexcept;

  void insert(const Eigen::Vector3d& point);

  struct Near {
    int number;
    double distance;  ///< [mm]
  };
  /// The nearest points, in no order; fewer if there are fewer.
  void nearest(const Eigen::Vector3d& place, unsigned count, std::vector<Near>& found) const;
  /// Whether any point is nearer than that.
  bool any_within(const Eigen::Vector3d& place, double distance) const;

 private:
  struct Tree;
  std::unique_ptr<Tree> tree_;
};

}  // namespace crossgrain
