// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/aggregation/block_table.h"
#include "solver/blocks/node_vectors.h"

namespace crossgrain {

/// A prolongation in single precision, to be applied to vectors both ways.
class LevelTransfer {
 public:
  LevelTransfer(const BlockTable& P, int threads);

  Eigen::Index coarse_nodes() const { return std::ssize(column_start_) - 1; }
  /// fine = P coarse.
  void prolong(const NodeVectors<float>& coarse, NodeVectors<float>& fine) const;
  /// coarse = P^t fine.
  void restrict(const NodeVectors<float>& fine, NodeVectors<float>& coarse) const;

  /// A fine node that a coarse one moves.
  int some_row_of(Eigen::Index coarse_node) const {
    return entries_[column_start_[coarse_node]].row;
  }

 private:
  struct Entry {
    int row;
    std::int64_t block;
  };
  int threads_;
  std::vector<std::int64_t> row_start_;
  std::vector<int> column_;
  Blocks<float> blocks_;
  std::vector<std::int64_t> column_start_;
  std::vector<Entry> entries_;  ///< column by column
};

}  // namespace crossgrain
