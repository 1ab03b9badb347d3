// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/blocks/added_blocks.h"
#include "solver/blocks/node_vectors.h"

namespace crossgrain {

/// What supports leave free at every node: vectors are projected onto it, and a matrix K becomes
/// P K P with its own size on the held diagonal, so that blocks stay 3x3 whatever is held.
class FreeDirections {
 public:
  struct HeldNode {
    int node;
    Eigen::Matrix3d free;  ///< projector onto what is left free
  };
  /// @param held  each node once.
  FreeDirections(Eigen::Index nodes, std::vector<HeldNode> held);

  const std::vector<HeldNode>& held() const { return held_; }
  /// Free directions of all nodes.
  Eigen::Index count() const;

  template <class Scalar>
  void project(NodeVectors<Scalar>& vectors) const;

  /// The diagonal block K of a node as it is in P K P, with its mean on what is held; 1 where K has
  /// no stiffness at all.
  Eigen::Matrix3d projected_diagonal(int node, const Eigen::Matrix3d& K) const;

  /// P K P, its diagonal as above.
  template <class Scalar>
  void project(const BlockPattern& pattern, const Blocks<double>& K, Blocks<Scalar>& projected,
               int threads) const;
  /// P B P of blocks that are added to such a matrix.
  AddedBlocks projected(AddedBlocks added) const;

 private:
  Eigen::Matrix3d at(int node) const;

  std::vector<HeldNode> held_;
  std::vector<int> number_;  ///< of each node in held_, -1: free
};

}  // namespace crossgrain
