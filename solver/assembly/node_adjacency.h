// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// A tetrahedron at a node and the node's number in it.
struct Incidence {
  int tetrahedron;
  int local_node;
};

/// Tetrahedra at every node, ascending. Sums taken in this order do not depend on threads.
class NodeAdjacency {
 public:
  /// @param tetrahedra  numbers of their nodes, less than `nodes`.
  NodeAdjacency(const Eigen::Matrix<int, 10, Eigen::Dynamic>& tetrahedra, Eigen::Index nodes);
  explicit NodeAdjacency(const TetrahedronMesh& mesh)
      : NodeAdjacency(mesh.tetrahedra, mesh.node_count()) {}

  std::span<const Incidence> at(Eigen::Index node) const {
    return {incidences_.data() + start_[node], incidences_.data() + start_[node + 1]};
  }

 private:
  std::vector<int> start_;
  std::vector<Incidence> incidences_;
};

}  // namespace crossgrain
