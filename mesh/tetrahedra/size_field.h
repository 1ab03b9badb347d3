// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/point_tree.h"
#include "mesh/tetrahedra/asked_sizes.h"

namespace crossgrain {

/// Edge length as a function of place: what the part's nearest points ask for and what is asked
/// from outside, growing away from there at a limited rate.
class SizeField {
 public:
  SizeField(std::vector<SizedPoint> points, AskedSizes asked, double greatest);

  /// For the mesh of a surface and its edges [mm].
  double on_surface(const Eigen::Vector3d& place) const;
  /// For the mesh of the volumes [mm].
  double inside(const Eigen::Vector3d& place) const;

 private:
  double of_part(const Eigen::Vector3d& place) const;

  std::vector<SizedPoint> points_;
  PointTree places_;  ///< of the points
  AskedSizes asked_;
  double greatest_;
};

}  // namespace crossgrain
