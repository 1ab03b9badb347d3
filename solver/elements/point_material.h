// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/elements/material_field.h"

namespace crossgrain {

/// Stiffness and free thermal strain in global axes at the points of a field. Remembers the last
/// material and frame: in most fields neighbours share them. One per thread.
class PointMaterial {
 public:
  explicit PointMaterial(const MaterialField& field);

  /// [MPa], global axes.
  const Matrix6d& stiffness(Eigen::Index tetrahedron, Eigen::Index point);
  /// [1/K], global axes.
  const Vector6d& thermal_strain(Eigen::Index tetrahedron, Eigen::Index point);

 private:
  void move_to(Eigen::Index tetrahedron, Eigen::Index point);

  const MaterialField& field_;
  std::vector<Matrix6d> stiffness_in_material_axes_;
  int material_ = -1;
  int frame_ = -1;
  Matrix6d stiffness_;
  Vector6d thermal_strain_;
};

}  // namespace crossgrain
