// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "solver/assembly/straight_elements.h"
#include "solver/blocks/block_product.h"
#include "solver/iteration/preconditioner.h"
#include "solver/multigrid/chebyshev_smoother.h"
#include "solver/multigrid/corner_choice.h"

namespace crossgrain {

/// One symmetric cycle of p-multigrid in single precision: smooth the quadratic level, correct it
/// by a solution on the corners alone, exact or nearly, smooth again.
class TwoLevelCycle : public Preconditioner {
 public:
  /// All arguments are kept by reference.
  TwoLevelCycle(const BlockPattern& pattern, const BlockPattern& corner_pattern,
                const LinearLevel& level, const BlockProduct& product, const FreeDirections& free,
                CornerMethod corner_method, int threads);

  /// Take another fine matrix; what was made for the corners stays.
  /// @param K  kept by reference, as is the other.
  /// @param elements  what is smoothed in its place; usable. None: K itself.
  void set_fine_matrix(const Blocks<double>& K, const StraightElements* elements);
  /// @return the rank of a corner at which the corners' matrix is not positive definite, or -1.
  std::int64_t set_corner_matrix(const Blocks<double>& K_corners);

  void apply(const NodeVectors<double>& r, NodeVectors<double>& z) const override;

  /// The way on the corners.
  const CornerSolver& corners() const { return *corners_; }

 private:
  const BlockPattern& pattern_;
  const BlockPattern& corner_pattern_;
  const LinearLevel& level_;
  const BlockProduct& product_;
  const FreeDirections& free_;
  FreeDirections free_corners_;
  int threads_;
  Blocks<float> stored_;  ///< without elements
  std::unique_ptr<LevelOperator> fine_;
  std::unique_ptr<CornerSolver> corners_;
  ChebyshevSmoother smoother_;
};

}  // namespace crossgrain
