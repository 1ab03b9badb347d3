// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/blocks/free_directions.h"
#include "solver/cholesky/sparse_cholesky.h"
#include "solver/iteration/preconditioner.h"

namespace crossgrain {

/// The inverse itself, by the sparse Cholesky factor of the whole matrix.
class CompleteFactor : public Preconditioner {
 public:
  /// Arguments are kept by reference.
  CompleteFactor(const BlockPattern& pattern, const FreeDirections& free, int threads)
      : pattern_(pattern), free_(free), threads_(threads), cholesky_(pattern, threads) {}

  /// @return the node at which K is not positive definite, or -1.
  std::int64_t set_matrix(const Blocks<double>& K) {
    Blocks<double> projected;
    free_.project(pattern_, K, projected, threads_);
    return cholesky_.factorise(projected);
  }

  void apply(const NodeVectors<double>& r, NodeVectors<double>& z) const override {
    cholesky_.solve(r, z);
  }

 private:
  const BlockPattern& pattern_;
  const FreeDirections& free_;
  int threads_;
  SparseCholesky<double> cholesky_;
};

}  // namespace crossgrain
