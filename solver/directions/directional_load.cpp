// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/directions/directional_load.h"

#include <array>
#include <cassert>
#include <utility>

namespace crossgrain {
namespace {

/// Products n_k n_l that differ.
constexpr std::array<std::pair<int, int>, 6> products{
    {{0, 0}, {1, 1}, {2, 2}, {1, 2}, {0, 2}, {0, 1}}};

}  // namespace

DirectionalLoad::DirectionalLoad(
    const std::function<Eigen::VectorXd(const Eigen::Vector3d&)>& forces_along) {
  for (int p = 0; p < 6; ++p) {
    const auto [k, l] = products[p];
    const Eigen::VectorXd forces =
        forces_along((Eigen::Vector3d::Unit(k) + Eigen::Vector3d::Unit(l)).normalized());
    parts_.conservativeResize(forces.size(), 6);
    // Half way between two axes all three products of the two count one half.
    if (k == l)
      parts_.col(p) = forces;
    else
      parts_.col(p) = 2.0 * forces - parts_.col(k) - parts_.col(l);
  }
}

void DirectionalLoad::add_told(const Eigen::MatrixXd& parts) {
  parts_.conservativeResize(Eigen::NoChange, parts_.cols() + parts.cols());
  parts_.rightCols(parts.cols()) = parts;
  told_ += parts.cols();
}

Eigen::VectorXd DirectionalLoad::weights(const Eigen::Vector3d& direction,
                                         const Eigen::VectorXd& told) const {
  assert(told.size() == told_);
  const Eigen::Index own = parts_.cols() - told_;
  Eigen::VectorXd weights(parts_.cols());
  weights.tail(told_) = told;
  if (own == 1) {
    weights[0] = 1.0;
    return weights;
  }
  const Eigen::Vector3d n = direction.stableNormalized();
  for (int p = 0; p < 6; ++p) weights[p] = n[products[p].first] * n[products[p].second];
  return weights;
}

}  // namespace crossgrain
