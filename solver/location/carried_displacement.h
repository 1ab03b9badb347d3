// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// The displacement found on one mesh at the nodes of another mesh of the same part: where to begin
/// solving there. Body by body; exact where the old field is quadratic. A node that lies outside of
/// the old elements, whose curved sides need not fit the new ones, gets the displacement of the
/// nearest place; one of a body that the old mesh has not gets none.
/// @param displacement  unknowns of the old mesh x n [mm].
/// @param threads       0: all cores.
/// @return unknowns of the new mesh x n [mm].
/// @throws std::invalid_argument for a displacement of another size, or not finite.
Eigen::MatrixXd carried_displacement(const TetrahedronMesh& old_mesh,
                                     const Eigen::MatrixXd& displacement,
                                     const TetrahedronMesh& new_mesh, int threads = 0);

}  // namespace crossgrain
