// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/directions/half_sphere.h"

#include <cmath>
#include <numbers>

namespace crossgrain {

Eigen::Matrix3Xd half_sphere(Eigen::Index count) {
  constexpr double golden_angle = std::numbers::pi * (3.0 - 2.23606797749978969641);  // sqrt(5)
  Eigen::Matrix3Xd directions(3, count);
  for (Eigen::Index i = 0; i < count; ++i) {
    const double z = 1.0 - (static_cast<double>(i) + 0.5) / static_cast<double>(count);
    const double across = std::sqrt(1.0 - z * z), angle = golden_angle * static_cast<double>(i);
    directions.col(i) << across * std::cos(angle), across * std::sin(angle), z;
  }
  return directions;
}

}  // namespace crossgrain
