// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

namespace crossgrain {

/// Symmetric tensors as six numbers, order 11 22 33 23 13 12.
/// Stress carries the tensor components; strain carries engineering shear (gamma = 2 epsilon).
using Vector6d = Eigen::Matrix<double, 6, 1>;
/// Stiffness [MPa] or compliance [1/MPa] in that order.
using Matrix6d = Eigen::Matrix<double, 6, 6>;

}  // namespace crossgrain
