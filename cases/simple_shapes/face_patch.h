// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// Some faces taken together, and where they end; to the accuracy of the flat triangles.
class FacePatch {
 public:
  struct Segment {
    Eigen::Vector3d a, b;  ///< [mm]
    Eigen::Vector3d middle() const { return 0.5 * (a + b); }
  };
  /// A closed line in which the patch ends.
  using Rim = std::vector<Segment>;

  FacePatch(const Geometry& geometry, const std::vector<FaceId>& faces);

  /// The longest first. Seams between the faces are no rims.
  const std::vector<Rim>& rims() const { return rims_; }
  /// Middles of the triangles [mm], and their areas [mm^2].
  const std::vector<Eigen::Vector3d>& middles() const { return middles_; }
  const std::vector<double>& areas() const { return areas_; }

 private:
  std::vector<Rim> rims_;
  std::vector<Eigen::Vector3d> middles_;
  std::vector<double> areas_;
};

/// From a point to the nearest of some segments [mm]; infinity if there are none.
double distance_to(const std::vector<FacePatch::Segment>& segments, const Eigen::Vector3d& point);

/// All segments of rims from the given one on.
std::vector<FacePatch::Segment> segments_from(const std::vector<FacePatch::Rim>& rims,
                                              std::size_t first);

}  // namespace crossgrain
