// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/blocks/block_product.h"

#include <algorithm>
#include <cassert>
#include <type_traits>

#include "solver/kernels/kernels.h"

namespace crossgrain {
namespace {

template <class Scalar>
BlockRows<Scalar> kernel(int columns) {
  assert(columns >= 1 && columns <= most_columns);
  if constexpr (std::is_same_v<Scalar, float>)
    return kernels().block_rows_single[columns - 1];
  else
    return kernels().block_rows_double[columns - 1];
}

}  // namespace

BlockProduct::BlockProduct(const BlockPattern& pattern, int threads)
    : pattern_(pattern), threads_(threads) {
  const auto blocks = pattern.size();
  Eigen::Index begin = 0;
  for (int p = 1; p <= most_row_pieces && begin < pattern.nodes(); ++p) {
    RowPiece piece{begin, pattern.nodes(), 0};
    if (p < most_row_pieces)
      piece.end = std::max<Eigen::Index>(
          begin + 1, std::lower_bound(pattern.row_start.begin(), pattern.row_start.end(),
                                      blocks * p / most_row_pieces) -
                         pattern.row_start.begin());
    piece.end = std::min(piece.end, pattern.nodes());
    piece.reach = piece.end;
    for (auto i = piece.begin; i < piece.end; ++i)
      piece.reach =
          std::max<Eigen::Index>(piece.reach, pattern.column[pattern.row_start[i + 1] - 1] + 1);
    pieces_.push_back(piece);
    begin = piece.end;
  }
}

template <class Scalar>
void BlockProduct::apply(const Blocks<Scalar>& A, const NodeVectors<Scalar>& x,
                         NodeVectors<Scalar>& y) const {
  assert(x.nodes() == pattern_.nodes() && y.nodes() == x.nodes() && y.columns() == x.columns());
  const auto multiply_rows = kernel<Scalar>(x.columns());
  sum_row_pieces(pieces_, threads_, y, [&](Eigen::Index p, Scalar* own, Scalar* beyond) {
    multiply_rows(pattern_.row_start.data(), pattern_.column.data(), A.data(), pieces_[p].begin,
                  pieces_[p].end, x.data(), own, beyond);
  });
}

template void BlockProduct::apply(const Blocks<float>&, const NodeVectors<float>&,
                                  NodeVectors<float>&) const;
template void BlockProduct::apply(const Blocks<double>&, const NodeVectors<double>&,
                                  NodeVectors<double>&) const;

}  // namespace crossgrain
