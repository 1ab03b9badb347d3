// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

#include "materials/elasticity/tensor.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain::verification {

/// A smooth displacement field that vanishes on the plane x = 0,
///   u_i = A_i sin(c x) cos(a_i y + b_i z + d_i),
/// in a homogeneous anisotropic body, and the body force that keeps it in equilibrium.
class ManufacturedSolution {
 public:
  /// @param stiffness  6x6 [MPa], global axes.
  explicit ManufacturedSolution(const Matrix6d& stiffness) : stiffness_(stiffness) {}

  Eigen::Vector3d displacement(const Eigen::Vector3d& position) const;  ///< [mm]
  Vector6d strain(const Eigen::Vector3d& position) const;               ///< engineering shear [-]
  Vector6d stress(const Eigen::Vector3d& position) const;               ///< [MPa]
  Eigen::Vector3d body_force(const Eigen::Vector3d& position) const;    ///< [N/mm^3]

 private:
  Matrix6d stiffness_;
};

/// The body force, and the tractions on the six sides of a box: unknowns [N].
Eigen::VectorXd manufactured_load(const TetrahedronMesh& box, const ManufacturedSolution& exact);

}  // namespace crossgrain::verification
