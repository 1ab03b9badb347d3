// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// Motion that a support holds on its faces.
enum class Hold {
  all,        ///< no motion
  direction,  ///< none along `direction`
  normal,     ///< slides on its surface
};

struct Support {
  std::string name;
  std::vector<FaceId> faces;
  Hold hold = Hold::all;
  Eigen::Vector3d direction = Eigen::Vector3d::Zero();  ///< for Hold::direction; unit
};

/// Directions held at one node: orthonormal columns, 1 to 3 of them.
struct NodeConstraint {
  int node;
  Eigen::Matrix<double, 3, Eigen::Dynamic, 0, 3, 3> held;
};

/// Homogeneous displacement constraints of a set of supports. Directions at a node that agree
/// within a small angle (a curved face's facets) are one direction.
std::vector<NodeConstraint> constraints_of(const TetrahedronMesh& mesh,
                                           const std::vector<Support>& supports);

/// Orthonormal basis of the rigid motions that the constraints leave free: unknowns x k, k = 0..6
/// per connected group of elements.
Eigen::MatrixXd free_rigid_motions(const TetrahedronMesh& mesh,
                                   const std::vector<NodeConstraint>& constraints);

/// Connected groups of elements (bodies that share nodes): the group of every node; -1 for a node
/// of no element.
std::vector<int> connected_groups(const TetrahedronMesh& mesh);

}  // namespace crossgrain
