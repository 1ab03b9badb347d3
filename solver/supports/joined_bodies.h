// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/supports/rigid_motions.h"

namespace crossgrain {

/// Put bodies into groups by the additions between them; what has no stiffness joins nothing.
/// @param rigid  its bodies and the body of each node are there; gets its groups.
void join_bodies(const StiffnessAdditions& additions, RigidMotions& rigid);

/// What additions make of the rigid motions of each group's bodies: 6 rows and columns a body
/// [N/mm].
std::vector<Eigen::MatrixXd> stiffness_of_motions(const TetrahedronMesh& mesh,
                                                  const StiffnessAdditions& additions,
                                                  const RigidMotions& rigid);

}  // namespace crossgrain
