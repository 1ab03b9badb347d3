// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>

#include "solver/aggregation/level_transfer.h"
#include "solver/aggregation/rigid_points.h"
#include "solver/cholesky/sparse_cholesky.h"
#include "solver/multigrid/chebyshev_smoother.h"
#include "solver/multigrid/corner_solver.h"

namespace crossgrain {

/// One symmetric cycle of multigrid on the corners, made from the matrix itself: bytes and time
/// grow with the corners, where a factor's grow faster. Coarser levels hold the rigid motions of
/// aggregates, smoothed; the coarsest is factorised.
class AggregationMultigrid : public CornerSolver {
 public:
  /// @param pattern  kept by reference.  @param free  kept by reference.
  /// @param positions  of the corners, 3 x n [mm].
  AggregationMultigrid(const BlockPattern& pattern, const FreeDirections& free,
                       Eigen::Matrix3Xd positions, int threads);
  ~AggregationMultigrid() override;

  std::int64_t set_matrix(const Blocks<double>& A) override;
  void solve(const NodeVectors<float>& b, NodeVectors<float>& x) const override;
  bool exact() const override { return false; }

 private:
  struct Level;
  /// A corner among those that a node of the coarsest level moves.
  std::int64_t some_corner_of(std::int64_t coarsest_node) const;
  void cycle(std::size_t level, const NodeVectors<float>& b, NodeVectors<float>& x) const;

  const BlockPattern& pattern_;
  const FreeDirections& free_;
  Eigen::Matrix3Xd positions_;
  int threads_;
  std::vector<std::unique_ptr<Level>> levels_;  ///< the finest first
  std::optional<SparseCholesky<float>> coarsest_;
};

}  // namespace crossgrain
