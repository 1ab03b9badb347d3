// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <memory>
#include <vector>

namespace crossgrain {

/// Finds the nearest of many points.
class PointTree {
 public:
  explicit PointTree(std::vector<Eigen::Vector3d> points);
  ~PointTree();
  PointTree(PointTree&&) noexcept;

  struct Near {
    int number;       ///< place in the list
    double distance;  ///< [mm]
  };
  /// The nearest points, nearest first; fewer if there are fewer. @param count  up to `most_asked`.
  void nearest(const Eigen::Vector3d& place, unsigned count, std::vector<Near>& found) const;
  static constexpr unsigned most_asked = 16;

  /// Choose points in their order, leaving out what lies within `apart(i)` [mm] of a chosen one i.
  template <class Apart>
  std::vector<int> spread(const Apart& apart) const;

 private:
  void within(int number, double distance, std::vector<int>& found) const;
  std::size_t size() const;

  struct Tree;
  std::unique_ptr<Tree> tree_;
};

template <class Apart>
std::vector<int> PointTree::spread(const Apart& apart) const {
  std::vector<bool> left_out(size(), false);
  std::vector<int> chosen, near;
  for (int i = 0; i < static_cast<int>(size()); ++i) {
    if (left_out[static_cast<std::size_t>(i)]) continue;
    chosen.push_back(i);
    within(i, apart(i), near);
    for (const int other : near) left_out[static_cast<std::size_t>(other)] = true;
  }
  return chosen;
}

}  // namespace crossgrain
