// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/blocks/block_matrix.h"
#include "solver/blocks/node_vectors.h"
#include "solver/blocks/row_pieces.h"

namespace crossgrain {

/// Multiplies symmetric block matrices of one pattern with node vectors; the same to the last bit
/// for any number of threads.
class BlockProduct {
 public:
  /// @param pattern  kept by reference.  @param threads  0: all cores.
  BlockProduct(const BlockPattern& pattern, int threads);

  /// y = A x.
  template <class Scalar>
  void apply(const Blocks<Scalar>& A, const NodeVectors<Scalar>& x, NodeVectors<Scalar>& y) const;

 private:
  const BlockPattern& pattern_;
  int threads_;
  std::vector<RowPiece> pieces_;
};

}  // namespace crossgrain
