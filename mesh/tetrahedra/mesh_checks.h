// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// Bounds of a curved element's Jacobian determinant over the whole element, and its mean. From the
/// determinant's Bernstein coefficients: it is a cubic polynomial, and lies between them
/// everywhere, not just at sampled points (Johnen, Remacle, Geuzaine, "Geometrical validity of
/// curvilinear finite elements", J. Comput. Phys. 233 (2013); from memory).
struct JacobianBounds {
  double least;     ///< [mm^3]
  double greatest;  ///< [mm^3]
  double mean;      ///< six times the element's volume, exactly [mm^3]
  double straight;  ///< of the element with straight edges [mm^3]
};
JacobianBounds jacobian_bounds(const TetrahedronMesh& mesh, Eigen::Index element);

/// The least the determinant may be, over that of a regular tetrahedron with the same root mean
/// square edge: 1 for a regular straight one, 0 for a flat one, negative if inverted somewhere [-].
double scaled_jacobian(const TetrahedronMesh& mesh, Eigen::Index element,
                       const JacobianBounds& bounds);

/// Volume of the curved element [mm^3].
double element_volume(const TetrahedronMesh& mesh, Eigen::Index element);

/// Volume of the whole mesh [mm^3].
double mesh_volume(const TetrahedronMesh& mesh);

}  // namespace crossgrain
