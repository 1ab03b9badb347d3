// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "solver/cholesky/sparse_cholesky.h"
#include "solver/multigrid/corner_solver.h"

namespace crossgrain {

/// The corners' matrix solved exactly, by its sparse Cholesky factor in single precision.
class CornerFactor : public CornerSolver {
 public:
  /// @param analysed  for the corners' pattern.
  explicit CornerFactor(std::unique_ptr<SparseCholesky<float>> analysed)
      : cholesky_(std::move(analysed)) {}

  std::int64_t set_matrix(const Blocks<double>& A) override { return cholesky_->factorise(A); }
  void solve(const NodeVectors<float>& b, NodeVectors<float>& x) const override {
    cholesky_->solve(b, x);
  }
  bool exact() const override { return true; }

 private:
  std::unique_ptr<SparseCholesky<float>> cholesky_;
};

}  // namespace crossgrain
