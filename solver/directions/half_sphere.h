// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

namespace crossgrain {

/// Directions spread evenly over the half-sphere z > 0: a build direction and its opposite are one.
/// Each stands for an equal area, so that a mean over them is one over the half-sphere.
/// @return 3 x count, of unit length; always the same ones.
/// Source: the golden-angle spiral, common practice.
Eigen::Matrix3Xd half_sphere(Eigen::Index count);

}  // namespace crossgrain
