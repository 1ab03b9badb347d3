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

/// Stress is not to be trusted on a mesh with a scaled Jacobian below this [-]. In Lamé's cylinder
/// corners of elements were moved until one was as flat as that, and tangled ones straightened: the
/// judged stress was off by 1 % of the largest on the sound mesh of three elements through the
/// wall, by up to 3 % down to 0.002, 4 % at 0.001, 9 % at 0.0002 beside a single flat element, 19 %
/// beside several, and at 0.00001 once by fourteen times the largest stress itself. A flat element
/// with straight edges between sound ones does no harm by itself, but nothing tells it apart.
inline constexpr double least_trusted_jacobian = 1e-3;

/// Volume of the curved element [mm^3].
double element_volume(const TetrahedronMesh& mesh, Eigen::Index element);

/// Volume of the whole mesh [mm^3].
double mesh_volume(const TetrahedronMesh& mesh);

}  // namespace crossgrain
