// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/point_tree.h"
#include "mesh/tetrahedra/mesh_sizes.h"

namespace crossgrain {

/// Edge length as a function of place: what the nearest points ask for, growing away from them and
/// from the balls at a limited rate.
class SizeField {
 public:
  SizeField(std::vector<SizedPoint> points, std::vector<SizeBall> balls, double greatest);

  /// [mm]
  double at(const Eigen::Vector3d& place) const;

 private:
  std::vector<SizedPoint> points_;
  PointTree places_;  ///< of the points
  std::vector<SizeBall> balls_;
  double greatest_;
};

/// How fast edges may grow with distance [-]: neighbours differ by about a third.
inline constexpr double size_growth = 0.35;

}  // namespace crossgrain
