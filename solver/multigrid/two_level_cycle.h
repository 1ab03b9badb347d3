// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>

#include "solver/assembly/straight_elements.h"
#include "solver/blocks/block_product.h"
#include "solver/blocks/sum_of_blocks.h"
#include "solver/iteration/preconditioner.h"
#include "solver/multigrid/chebyshev_smoother.h"
#include "solver/multigrid/corner_choice.h"

namespace crossgrain {

/// One symmetric cycle of p-multigrid in single precision: smooth the quadratic level, correct it
/// by a solution on the corners alone, exact or nearly, smooth again.
class TwoLevelCycle : public Preconditioner {
 public:
  /// Patterns, level, product and free directions are kept by reference.
  TwoLevelCycle(const BlockPattern& pattern, const BlockPattern& corner_pattern,
                const LinearLevel& level, const BlockProduct& product, const FreeDirections& free,
                CornerMethod corner_method, int threads);

  /// Take another corners' matrix, and with it perhaps another way to solve there: the fine one has
  /// to be set next.
  /// @param added  to the matrix of all nodes.
  /// @return the rank of a corner at which the corners' matrix is not positive definite, or -1.
  std::int64_t set_corner_matrix(const Blocks<double>& K_corners, const AddedBlocks& added);
  /// Take another fine matrix; what was made for the corners stays.
  /// @param K  kept by reference, as are the elements.
  /// @param elements  what is smoothed in its place; usable. None: K itself.
  void set_fine_matrix(const Blocks<double>& K, const StraightElements* elements,
                       const AddedBlocks& added);

  void apply(const NodeVectors<double>& r, NodeVectors<double>& z) const override;

  /// The way on the corners, which is chosen with their first matrix.
  const CornerSolver& corners() const { return *corners_; }

 private:
  const BlockPattern& pattern_;
  const LinearLevel& level_;
  const BlockProduct& product_;
  const FreeDirections& free_;
  FreeDirections free_corners_;
  CornerMethod corner_method_;
  int threads_;
  SumOfBlocks corner_sum_;
  Blocks<float> stored_;  ///< without elements
  std::unique_ptr<LevelOperator> fine_;
  std::optional<JoinedNodes> joined_;  ///< by stiff additions
  std::unique_ptr<CornerSolver> corners_;
  std::optional<ChebyshevSmoother> smoother_;
};

}  // namespace crossgrain
