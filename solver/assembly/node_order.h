// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// The order in which the linear system keeps the mesh's nodes.
struct NodeOrder {
  std::vector<int> rank;  ///< of each node of the mesh
  std::vector<int> node;  ///< at each rank
};

/// Breadth first over the corners, from an end of each connected group, each mid-side node right
/// behind its later corner: rows that follow each other in the matrix touch the same stretch of a
/// vector. Nodes of no element come last.
NodeOrder breadth_first_order(const TetrahedronMesh& mesh);

/// The corners at the ends of each node's edge: a corner names itself twice, a node of no element
/// -1 twice.
std::vector<std::array<int, 2>> edge_ends(const TetrahedronMesh& mesh);

}  // namespace crossgrain
