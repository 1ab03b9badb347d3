// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/elasticity/tensor.h"
#include "solver/elements/shape_functions.h"

namespace crossgrain {

/// Strain of nodal displacements (column a: node a [mm]); engineering shear [-].
inline Vector6d strain_of(const TetrahedronGradients& gradients,
                          const Eigen::Matrix<double, 3, 10>& displacement) {
  const Eigen::Matrix3d H = displacement * gradients.transpose();  // H(i, k) = du_i / dx_k
  return {H(0, 0), H(1, 1), H(2, 2), H(1, 2) + H(2, 1), H(0, 2) + H(2, 0), H(0, 1) + H(1, 0)};
}

/// Stress as a symmetric matrix.
inline Eigen::Matrix3d tensor_of(const Vector6d& s) {
  Eigen::Matrix3d tensor;
  tensor << s[0], s[5], s[4],  //
      s[5], s[1], s[3],        //
      s[4], s[3], s[2];
  return tensor;
}

}  // namespace crossgrain
