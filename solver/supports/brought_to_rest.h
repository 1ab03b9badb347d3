// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/supports/rigid_motions.h"

namespace crossgrain {

/// Displacements moved by their groups' free motions, so that they vanish where holds hold them. A
/// displacement without rigid motion moves at a determinate hold; to set it to zero there alone
/// would tear it.
/// @param displacements  unknowns x n [mm].
/// @param holds          as with_determinate_holds makes them.
Eigen::MatrixXd brought_to_rest(Eigen::MatrixXd displacements, const TetrahedronMesh& mesh,
                                const RigidMotions& rigid,
                                const std::vector<NodeConstraint>& holds);

}  // namespace crossgrain
