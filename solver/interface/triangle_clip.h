// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

namespace crossgrain {

/// Corners as columns, counter-clockwise.
using PlaneTriangle = Eigen::Matrix<double, 2, 3>;

/// The polygon that two triangles have in common: its corners in order, counter-clockwise; empty
/// where they do not overlap.
std::vector<Eigen::Vector2d> clipped(const PlaneTriangle& triangle, const PlaneTriangle& by);

/// Signed, positive if counter-clockwise.
double area_of(const PlaneTriangle& triangle);

}  // namespace crossgrain
