// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/assembly/straight_elements.h"
#include "solver/blocks/free_directions.h"
#include "solver/multigrid/level_operator.h"

namespace crossgrain {

/// P K P on the finest level, K of straightened elements and not stored; arguments are kept by
/// reference.
class ElementOperator : public LevelOperator {
 public:
  /// @param K  the assembled stiffness, for its diagonal.
  ElementOperator(const StraightElements& elements, const BlockPattern& pattern,
                  const Blocks<double>& K, const FreeDirections& free)
      : elements_(elements), pattern_(pattern), K_(K), free_(free) {}

  Eigen::Index nodes() const override { return pattern_.nodes(); }
  Eigen::Matrix3d diagonal(Eigen::Index node) const override {
    return free_.projected_diagonal(static_cast<int>(node), K_[pattern_.row_start[node]]);
  }
  void apply(const NodeVectors<float>& x, NodeVectors<float>& y) const override {
    elements_.apply(x, y);
    free_.project(y);
  }

 private:
  const StraightElements& elements_;
  const BlockPattern& pattern_;
  const Blocks<double>& K_;
  const FreeDirections& free_;
};

}  // namespace crossgrain
