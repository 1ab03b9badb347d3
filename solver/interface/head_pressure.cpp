// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/head_pressure.h"

#include <cmath>

namespace crossgrain {
namespace {

/// Bounds the stiff part at the rim at a hundred times that in the middle, so that no point of
/// integration that happens to lie there counts too much; the motion does not notice.
constexpr double rim = 1e-4;

}  // namespace

ScalarOfPosition pressure_under_head(const Eigen::Vector3d& middle, const Eigen::Vector3d& axis,
                                     double radius) {
  return [=](const Eigen::Vector3d& x) {
    const Eigen::Vector3d from_axis = (x - middle) - axis * axis.dot(x - middle);
    const double share = from_axis.squaredNorm() / (radius * radius);
    return share <= 1.0 ? 1.0 + 0.5 / std::sqrt(1.0 - share + rim) : 0.0;
  };
}

}  // namespace crossgrain
