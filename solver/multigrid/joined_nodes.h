// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "solver/blocks/added_blocks.h"
#include "solver/blocks/free_directions.h"
#include "solver/cholesky/sparse_cholesky.h"

namespace crossgrain {

/// The nodes that stiff additions join, as one block of a smoother's diagonal: node by node, what
/// holds two faces together would hide from the smoother how either of them deforms.
class JoinedNodes {
 public:
  /// @param pattern, K, free  of the whole matrix; not kept.
  /// @param added  held directions projected out.
  JoinedNodes(const BlockPattern& pattern, const Blocks<double>& K, const FreeDirections& free,
              const AddedBlocks& added, int threads);

  bool empty() const { return nodes_.empty(); }
  /// Where the node stands in what `solve` gives, -1: it is none of them.
  int place(Eigen::Index node) const { return empty() ? -1 : place_[node]; }
  /// x at these nodes alone, of A x = b with all other nodes at rest.
  void solve(const NodeVectors<float>& b, NodeVectors<float>& x) const;
  Eigen::Index count() const { return std::ssize(nodes_); }

 private:
  std::vector<int> nodes_, place_;
  std::unique_ptr<SparseCholesky<float>> factor_;
};

}  // namespace crossgrain
