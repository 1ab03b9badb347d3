// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/supports/rigid_motions.h"

namespace crossgrain {

/// The constraints, and just as many more as take the free motions away: a determinate hold, whose
/// reactions vanish under balanced loads. Chosen far apart by pivoting, at corners of elements, so
/// that linear functions are held as well.
std::vector<NodeConstraint> with_determinate_holds(const TetrahedronMesh& mesh,
                                                   const RigidMotions& rigid,
                                                   const std::vector<NodeConstraint>& constraints);

/// Directions at a node that its held ones leave free: orthonormal columns.
using NodeDirections = Eigen::Matrix<double, 3, Eigen::Dynamic, 0, 3, 3>;
NodeDirections complement(const NodeDirections& held);

}  // namespace crossgrain
