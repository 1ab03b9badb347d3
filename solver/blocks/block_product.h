// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/blocks/block_matrix.h"
#include "solver/blocks/node_vectors.h"

namespace crossgrain {

/// Multiplies symmetric block matrices of one pattern with node vectors. Rows are cut into a fixed
/// number of pieces, whatever the number of threads, so that sums are always taken in the same
/// order.
class BlockProduct {
 public:
  /// @param pattern  kept by reference.  @param threads  0: all cores.
  BlockProduct(const BlockPattern& pattern, int threads);

  /// y = A x.
  template <class Scalar>
  void apply(const Blocks<Scalar>& A, const NodeVectors<Scalar>& x, NodeVectors<Scalar>& y) const;

 private:
  struct Piece {
    Eigen::Index begin, end;
    Eigen::Index reach;  ///< one past the largest column
  };
  const BlockPattern& pattern_;
  int threads_;
  std::vector<Piece> pieces_;
};

}  // namespace crossgrain
