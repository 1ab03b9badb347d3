// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "mesh/tetrahedra/sized_point.h"

namespace crossgrain {

/// How fast edges may grow with distance [-]: neighbours differ by about a third.
inline constexpr double size_growth = 0.35;

/// The smallest, over many points, of the size there plus growth times distance. By a tree of
/// boxes: in the time of looking for the nearest point.
class GrowingSizes {
 public:
  explicit GrowingSizes(std::vector<SizedPoint> points = {});

  /// @return [mm]; `greatest` if no point asks for less.
  double at(const Eigen::Vector3d& place, double greatest) const;

 private:
  /// The points of a box; those of a leaf, or in two boxes of which the first comes next in the
  /// list.
  struct Node {
    Eigen::Vector3d low, high;
    double least;  ///< size among its points [mm]
    int begin, end;
    int second = -1;  ///< of the two boxes; a leaf has none
  };

  int build(int begin, int end);
  /// What no point of a box undercuts [mm].
  double bound(const Node& node, const Eigen::Vector3d& place) const;
  void lower(int node, const Eigen::Vector3d& place, double& size) const;

  std::vector<SizedPoint> points_;
  std::vector<Node> nodes_;
};

}  // namespace crossgrain
