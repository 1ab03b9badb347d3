// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "solver/blocks/free_directions.h"
#include "solver/blocks/sum_of_blocks.h"
#include "solver/cholesky/sparse_cholesky.h"
#include "solver/iteration/preconditioner.h"

namespace crossgrain {

/// The inverse itself, by the sparse Cholesky factor of the whole matrix.
class CompleteFactor : public Preconditioner {
 public:
  /// @param pattern, free  kept by reference.
  CompleteFactor(const BlockPattern& pattern, const FreeDirections& free, int threads)
      : sum_(pattern), free_(free), threads_(threads) {}

  /// @return the node at which K + added is not positive definite, or -1.
  std::int64_t set_matrix(const Blocks<double>& K, const AddedBlocks& added) {
    if (sum_.make_room(added) || !cholesky_) cholesky_.emplace(sum_.pattern(), threads_);
    Blocks<double> projected;
    free_.project(sum_.pattern(), sum_.of(K, added), projected, threads_);
    return cholesky_->factorise(projected);
  }

  void apply(const NodeVectors<double>& r, NodeVectors<double>& z) const override {
    cholesky_->solve(r, z);
  }

 private:
  SumOfBlocks sum_;
  const FreeDirections& free_;
  int threads_;
  std::optional<SparseCholesky<double>> cholesky_;
};

}  // namespace crossgrain
