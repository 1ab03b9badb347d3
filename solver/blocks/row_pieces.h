// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <vector>

#include "solver/blocks/node_vectors.h"
#include "solver/elements/parallel.h"

namespace crossgrain {

/// Pieces of a product, a fixed number whatever the number of threads, so that sums are always
/// taken in the same order.
constexpr int most_row_pieces = 8;

/// Rows of a piece; what it does to others lies behind them.
struct RowPiece {
  Eigen::Index begin, end;
  Eigen::Index reach;  ///< one past the last row that it touches
};

/// y = the sum of what all pieces add. add(piece, y, beyond) adds to y in the piece's own rows and
/// to `beyond`, which starts at the piece's end, in later ones; pointers to numbers.
template <class Scalar, class Add>
void sum_row_pieces(const std::vector<RowPiece>& pieces, int threads, NodeVectors<Scalar>& y,
                    const Add& add) {
  const auto count = std::ssize(pieces);
  std::vector<NodeVectors<Scalar>> beyond(count);
  in_parallel(count, threads, [&](Eigen::Index first, Eigen::Index last) {
    for (auto p = first; p < last; ++p) {
      y.range(pieces[p].begin, pieces[p].end).setZero();
      beyond[p] = NodeVectors<Scalar>(pieces[p].reach - pieces[p].end, y.columns());
      add(p, y.data(), beyond[p].data());
    }
  });
  // What the pieces before it owe to a piece, in their order.
  in_parallel(count, threads, [&](Eigen::Index first, Eigen::Index last) {
    for (auto p = first; p < last; ++p)
      for (Eigen::Index from = 0; from < p; ++from) {
        const auto begin = std::max(pieces[from].end, pieces[p].begin);
        const auto end = std::min(pieces[from].reach, pieces[p].end);
        if (begin >= end) continue;
        y.range(begin, end) += beyond[from].range(begin - pieces[from].end, end - pieces[from].end);
      }
  });
}

}  // namespace crossgrain
