// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/aggregation/galerkin.h"

#include <Eigen/Cholesky>
#include <Eigen/LU>

#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

// As for the pivots of the sparse factor: round-off leaves less where nothing should be left.
constexpr double smallest_pivot = 1e-13;

Eigen::Matrix3d diagonal_block(const SymmetricRows& A, Eigen::Index row) {
  Eigen::Matrix3d diagonal = Eigen::Matrix3d::Zero();
  A.for_each_in_row(row, [&](int column, const auto& block) {
    if (column == row) diagonal = block;
  });
  return diagonal;
}

/// Unknowns that move nothing have a column of exact zeros.
void fill_empty(Eigen::Ref<Eigen::Matrix3d> diagonal) {
  const double size = diagonal.trace() > 0.0 ? diagonal.trace() / 3.0 : 1.0;
  for (int k = 0; k < 3; ++k)
    if (diagonal(k, k) == 0.0) diagonal(k, k) = size;
}

}  // namespace

Eigen::Index indefinite_diagonal(const BlockPattern& pattern, const Blocks<double>& A) {
  for (Eigen::Index i = 0; i < pattern.nodes(); ++i) {
    const Eigen::Matrix3d diagonal = A[pattern.row_start[i]];
    const Eigen::LLT<Eigen::Matrix3d> factor(diagonal);
    const Eigen::Array3d pivots = factor.matrixLLT().diagonal().array().square();
    if (factor.info() != Eigen::Success ||
        !(pivots > smallest_pivot * diagonal.diagonal().array()).all())
      return i;
  }
  return -1;
}

BlockTable smoothed(const BlockTable& P, const SymmetricRows& A, double damping, int threads) {
  BlockTable result = product(A, P, threads);
  in_parallel(result.rows(), threads, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto row = begin; row < end; ++row) {
      const Eigen::Matrix3d step = -damping * diagonal_block(A, row).inverse();
      // The diagonal brings every column of P's row into the product.
      auto own = P.row_start[row];
      for (auto k = result.row_start[row]; k < result.row_start[row + 1]; ++k) {
        result.block[k] = (step * result.block[k]).eval();
        if (own < P.row_start[row + 1] && P.column[own] == result.column[k])
          result.block[k] += P.block[own++];
      }
    }
  });
  return result;
}

GalerkinMatrix galerkin_matrix(const BlockTable& P, const SymmetricRows& A, int threads) {
  BlockTable upper = product(transposed(P), product(A, P, threads), Half::upper, threads);
  GalerkinMatrix result{{std::move(upper.row_start), std::move(upper.column)}, {}};
  result.A.resize(result.pattern.size());
  for (Eigen::Index k = 0; k < result.A.size(); ++k) result.A[k] = upper.block[k];
  for (Eigen::Index i = 0; i < result.pattern.nodes(); ++i) {
    auto diagonal = result.A[result.pattern.row_start[i]];
    diagonal = (0.5 * (diagonal + diagonal.transpose())).eval();
    fill_empty(diagonal);
  }
  return result;
}

}  // namespace crossgrain
