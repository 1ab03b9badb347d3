// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/blocks/block_product.h"

namespace crossgrain {

/// The matrix of a level of multigrid, as smoothing meets it: symmetric, positive definite on what
/// supports leave free, where its vectors lie.
class LevelOperator {
 public:
  virtual ~LevelOperator() = default;
  virtual Eigen::Index nodes() const = 0;
  virtual Eigen::Matrix3d diagonal(Eigen::Index node) const = 0;
  /// y = A x.
  virtual void apply(const NodeVectors<float>& x, NodeVectors<float>& y) const = 0;
};

/// A matrix that is stored; arguments are kept by reference.
class StoredOperator : public LevelOperator {
 public:
  StoredOperator(const BlockPattern& pattern, const Blocks<float>& A, const BlockProduct& product)
      : pattern_(pattern), A_(A), product_(product) {}

  Eigen::Index nodes() const override { return pattern_.nodes(); }
  Eigen::Matrix3d diagonal(Eigen::Index node) const override {
    return A_[pattern_.row_start[node]].cast<double>();
  }
  void apply(const NodeVectors<float>& x, NodeVectors<float>& y) const override {
    product_.apply(A_, x, y);
  }

 private:
  const BlockPattern& pattern_;
  const Blocks<float>& A_;
  const BlockProduct& product_;
};

}  // namespace crossgrain
