// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

namespace crossgrain {

/// A triangle in a plane [mm].
using FlatTriangle = std::array<Eigen::Vector2d, 3>;

/// Area [mm^2] of the union of triangles, overlaps counted once. By scan lines along the first
/// axis: exact on each line, midpoint rule across them.
/// @param lines  how many over the height of the union; an edge along the lines is off by at most
/// height / lines times its length.
double shadow_area(const std::vector<FlatTriangle>& triangles, int lines = 4000);

}  // namespace crossgrain
