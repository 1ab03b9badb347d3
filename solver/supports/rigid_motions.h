// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/iteration/additions.h"
#include "solver/supports/supports.h"

namespace crossgrain {

/// A connected set of elements, moved as a rigid body. A motion is six numbers: translation of
/// `centre` [mm], then rotation [rad] times `length`, so that all six move nodes by like amounts.
struct RigidBody {
  Eigen::Vector3d centre;  ///< mean of the body's nodes [mm]
  double length;           ///< root mean square distance of the nodes from it [mm]
  int group = -1;          ///< the bodies that it hangs together with
  int place = 0;           ///< among them

  /// Displacement at a position is this times the six numbers.
  Eigen::Matrix<double, 3, 6> motion_at(const Eigen::Vector3d& position) const;
};

/// Bodies that added stiffness joins.
struct RigidGroup {
  std::vector<int> bodies;
  Eigen::Vector3d centre;  ///< mean of the group's nodes [mm]
  double length;           ///< root mean square distance of the nodes from it [mm]
  /// Orthonormal columns, six rows a body: the motions that neither constraints hold nor additions
  /// resist.
  Eigen::MatrixXd free;
};

struct RigidMotions {
  std::vector<int> body_of_node;  ///< as connected_groups numbers them
  std::vector<RigidBody> bodies;
  std::vector<RigidGroup> groups;  ///< in order of their first bodies

  /// -1 for a node of no element.
  int group_of(int node) const;
  bool any_free() const;
  /// What the group's free motions make of a node of it, 3 x free.
  Eigen::Matrix<double, 3, Eigen::Dynamic> free_at(const TetrahedronMesh& mesh, int node) const;
};

/// Motions held more weakly than this fraction of the strongest count as free. The nodal normals of
/// a sliding face of revolution hold its rotation a little, by their error, and a load must not
/// lean on that.
constexpr double weakest_hold = 1e-3;
/// The same for additions, whose strengths differ more: the shear of a soft gasket beside the
/// penalty of faces in contact. In energy, its square.
constexpr double weakest_added_hold = 1e-4;

/// @param additions  nodes by number in the mesh.
RigidMotions rigid_motions(const TetrahedronMesh& mesh,
                           const std::vector<NodeConstraint>& constraints,
                           const StiffnessAdditions& additions);

/// Whether the same bodies hang together and the same motions are free.
bool same_freedom(const RigidMotions& a, const RigidMotions& b);

}  // namespace crossgrain
