// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/blocks/added_blocks.h"
#include "solver/blocks/node_vectors.h"

namespace crossgrain {

/// Multiplies added blocks, which few nodes have, with node vectors: whole rows of those nodes, so
/// that every thread writes its own; the same to the last bit for any number of threads.
template <class Scalar>
class AddedRows {
 public:
  AddedRows() = default;
  /// @param threads  0: all cores.
  AddedRows(const AddedBlocks& added, int threads);

  bool empty() const { return node_.empty(); }
  /// The nodes that have rows, ascending.
  const std::vector<int>& nodes() const { return node_; }
  /// y += B x.
  void add_product(const NodeVectors<Scalar>& x, NodeVectors<Scalar>& y) const;

 private:
  struct Entry {
    int column;
    Eigen::Matrix<Scalar, 3, 3> block;
  };
  int threads_ = 1;
  std::vector<int> node_;
  std::vector<Eigen::Index> start_;  ///< of each row, and one past the last
  std::vector<Entry> entries_;
};

}  // namespace crossgrain
