// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/supports/supports.h"

namespace crossgrain {

/// The rigid motions of one connected group of elements. A motion is six numbers: translation of
/// `centre` [mm], then rotation [rad] times `length`, so that all six move nodes by like amounts.
struct RigidGroup {
  int group;
  Eigen::Vector3d centre;  ///< mean of the group's nodes [mm]
  double length;           ///< root mean square distance of the nodes from it [mm]
  /// Orthonormal columns: the motions that the constraints leave free.
  Eigen::Matrix<double, 6, Eigen::Dynamic> free;

  /// Displacement at a position is this times the six numbers.
  Eigen::Matrix<double, 3, 6> motion_at(const Eigen::Vector3d& position) const;
};

/// Motions held more weakly than this fraction of the strongest count as free. The nodal normals of
/// a sliding face of revolution hold its rotation a little, by their error, and a load must not
/// lean on that.
constexpr double weakest_hold = 1e-3;

/// Groups in order of number.
std::vector<RigidGroup> rigid_groups(const TetrahedronMesh& mesh,
                                     const std::vector<int>& group_of_node,
                                     const std::vector<NodeConstraint>& constraints);

/// The constraints, and just as many more as take the free motions away: a determinate hold, whose
/// reactions vanish under balanced loads. Chosen far apart by pivoting, at corners of elements, so
/// that linear functions are held as well.
std::vector<NodeConstraint> with_determinate_holds(const TetrahedronMesh& mesh,
                                                   const std::vector<int>& group_of_node,
                                                   const std::vector<RigidGroup>& groups,
                                                   const std::vector<NodeConstraint>& constraints);

/// Directions at a node that its held ones leave free: orthonormal columns.
using NodeDirections = Eigen::Matrix<double, 3, Eigen::Dynamic, 0, 3, 3>;
NodeDirections complement(const NodeDirections& held);

}  // namespace crossgrain
