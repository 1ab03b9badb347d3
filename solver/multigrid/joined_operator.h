// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <memory>

#include "solver/blocks/added_rows.h"
#include "solver/multigrid/level_operator.h"

namespace crossgrain {

/// A matrix and blocks added beside it, so that neither its pattern nor a product without a matrix
/// need know of them.
class JoinedOperator : public LevelOperator {
 public:
  /// @param added  held directions projected out.
  JoinedOperator(std::unique_ptr<LevelOperator> base, const AddedBlocks& added, int threads)
      : base_(std::move(base)), rows_(added, threads) {
    for (const auto& block : added)
      if (block.row == block.column) diagonal_.push_back(block);
  }

  Eigen::Index nodes() const override { return base_->nodes(); }
  Eigen::Matrix3d diagonal(Eigen::Index node) const override {
    const auto own =
        std::lower_bound(diagonal_.begin(), diagonal_.end(), node,
                         [](const AddedBlock& block, Eigen::Index row) { return block.row < row; });
    if (own == diagonal_.end() || own->row != node) return base_->diagonal(node);
    return base_->diagonal(node) + own->value;
  }
  void apply(const NodeVectors<float>& x, NodeVectors<float>& y) const override {
    base_->apply(x, y);
    rows_.add_product(x, y);
  }

 private:
  std::unique_ptr<LevelOperator> base_;
  AddedRows<float> rows_;
  AddedBlocks diagonal_;
};

}  // namespace crossgrain
