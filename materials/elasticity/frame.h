// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/elasticity/tensor.h"

namespace crossgrain {

/// Material axes in global components: column j is material axis j. Proper rotation.
using Frame = Eigen::Matrix3d;

/// A frame whose third axis is the build direction; axes 1 and 2 are any orthonormal pair across it
/// (chosen deterministically; they matter only for layers with a bead direction).
/// @param build_direction  any non-zero length.
/// @throws std::invalid_argument if its length is zero or not finite.
Frame frame_along(const Eigen::Vector3d& build_direction);

/// A frame with the bead along axis 1 as nearly as the build direction allows (Gram-Schmidt).
Frame frame_along(const Eigen::Vector3d& build_direction, const Eigen::Vector3d& bead_direction);

/// 6x6 matrix T with stress_global = T * stress_material.
Matrix6d stress_rotation(const Frame& frame);

/// Express a stiffness given in material axes in global axes.
/// @param C  6x6 [MPa], material axes.  @return 6x6 [MPa], global axes: T C T^t.
/// @throws std::invalid_argument if frame is not a proper rotation (1e-10).
Matrix6d rotate_stiffness(const Matrix6d& C, const Frame& frame);

/// Stress [MPa] in global axes -> material axes.
Vector6d stress_in_material_axes(const Vector6d& stress, const Frame& frame);

/// Free thermal strain per kelvin in global axes (engineering shear).
/// @param expansion  CTE along material axes 1 2 3 [1/K].
Vector6d thermal_strain_per_kelvin(const Eigen::Vector3d& expansion, const Frame& frame);

}  // namespace crossgrain
