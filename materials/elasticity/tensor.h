// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <array>
#include <utility>

namespace crossgrain {

/// Symmetric tensors as six numbers, order 11 22 33 23 13 12.
/// Stress carries the tensor components; strain carries engineering shear (gamma = 2 epsilon).
using Vector6d = Eigen::Matrix<double, 6, 1>;
/// Stiffness [MPa] or compliance [1/MPa] in that order.
using Matrix6d = Eigen::Matrix<double, 6, 6>;

/// Tensor indices of the six numbers.
constexpr std::array<std::pair<int, int>, 6> index_pairs{
    {{0, 0}, {1, 1}, {2, 2}, {1, 2}, {0, 2}, {0, 1}}};

}  // namespace crossgrain
