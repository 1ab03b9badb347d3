// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/tetrahedra/growing_sizes.h"

namespace crossgrain {

// What edges turn out to be for each that is asked for [-]. Gmsh brings surface edges to the length
// asked for in the mean; inside it ends refinement by circumradii, which leaves edges of up to
// twice the radius and some more. Measured on balls of 0.5 to 4 mm and on fields over whole parts.
inline constexpr double longest_edge_on_surface = 1.6;
inline constexpr double longest_edge_inside = 2.4;
inline constexpr double mean_edge_inside = 1.45;

/// Sizes asked from outside, by balls and at points, as they must be put to the mesher so that the
/// longest edge in a ball and the mean edge at a point come out as asked.
class AskedSizes {
 public:
  /// @throws std::invalid_argument for a size or a radius that is not a positive number, and for a
  /// point that is none.
  AskedSizes(std::vector<SizedPoint> wanted, std::vector<SizeBall> balls);

  /// For the mesh of a surface and its edges [mm]; `greatest` if nothing asks for less.
  double on_surface(const Eigen::Vector3d& place, double greatest) const;
  /// For the mesh of the volumes [mm].
  double inside(const Eigen::Vector3d& place, double greatest) const;

 private:
  double in_balls(const Eigen::Vector3d& place, double longest_edge, double greatest) const;

  GrowingSizes wanted_;
  std::vector<SizeBall> balls_;
};

}  // namespace crossgrain
