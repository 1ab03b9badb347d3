// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/elements/material_field.h"
#include "solver/elements/quadrature.h"

namespace crossgrain {

/// Stress element by element: the linear least-squares fit through the quadrature points, kept at
/// the four corners. Between elements it jumps.
struct ElementStress {
  Eigen::Matrix<double, 6, Eigen::Dynamic> at_corners;  ///< 6 x (4 elements) [MPa], global axes
  Eigen::VectorXd volumes;                              ///< of the elements [mm^3]

  auto of(Eigen::Index tetrahedron) const { return at_corners.middleCols<4>(4 * tetrahedron); }
};

/// Points x 4: values at a rule's points -> the linear least-squares fit, taken at the corners.
Eigen::MatrixX4d fit_at_corners(const TetrahedronRule& rule);

/// @param displacement        unknowns [mm].
/// @param temperature_change  nodes [K], or empty: thermal strain is taken off.
/// @throws std::invalid_argument for arguments that do not fit the mesh or are not finite.
ElementStress element_stress(const TetrahedronMesh& mesh, const MaterialField& field,
                             const Eigen::VectorXd& displacement,
                             const Eigen::VectorXd& temperature_change = {});

/// The same of several displacements, in one pass over the elements.
/// @param displacements  unknowns x n [mm].
std::vector<ElementStress> element_stress_of_each(const TetrahedronMesh& mesh,
                                                  const MaterialField& field,
                                                  const Eigen::MatrixXd& displacements);

}  // namespace crossgrain
