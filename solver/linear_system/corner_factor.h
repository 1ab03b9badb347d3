// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>

#include "solver/linear_system/corner_solver.h"
#include "solver/linear_system/sparse_cholesky.h"

namespace crossgrain {

/// The corners' matrix solved exactly, by its sparse Cholesky factor in single precision.
class CornerFactor : public CornerSolver {
 public:
  /// @param analysed  for the corners' pattern.
  explicit CornerFactor(std::unique_ptr<SparseCholesky> analysed)
      : cholesky_(std::move(analysed)) {}

  std::int64_t set_matrix(const Blocks<double>& A) override {
    const auto bad = cholesky_->factorise(A);
    if (bad < 0) single_.emplace(cholesky_->take_single());
    return bad;
  }
  void solve(const NodeVectors<float>& b, NodeVectors<float>& x) const override {
    single_->solve(b, x);
  }
  bool exact() const override { return true; }

 private:
  std::unique_ptr<SparseCholesky> cholesky_;
  std::optional<SupernodalFactor> single_;
};

}  // namespace crossgrain
