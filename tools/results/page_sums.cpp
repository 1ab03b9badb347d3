// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/page_sums.h"

#include <Eigen/QR>
#include <algorithm>

namespace crossgrain {
namespace {

// Far above what sums in double precision lose, far below what a page's rounding leaves to be seen.
constexpr double left_over = 1e-6;

/// Stress and displacement of each case, each in parts of the largest of all; one column a case.
Eigen::MatrixXd columns_of(const std::vector<CaseResult>& cases) {
  const Eigen::Index stresses = cases.front().fields.stress.size();
  const Eigen::Index moves = cases.front().fields.displacement.size();
  Eigen::MatrixXd columns(stresses + moves, static_cast<Eigen::Index>(cases.size()));
  for (Eigen::Index i = 0; i < columns.cols(); ++i) {
    const CaseFields& fields = cases[static_cast<std::size_t>(i)].fields;
    columns.col(i) << fields.stress.reshaped(), fields.displacement;
  }
  for (auto part : {columns.topRows(stresses), columns.bottomRows(moves)}) {
    const double largest = part.lpNorm<Eigen::Infinity>();
    if (largest > 0.0) part /= largest;
  }
  return columns;
}

CaseSums all_of(std::size_t cases) {
  CaseSums sums;
  for (std::size_t i = 0; i < cases; ++i) sums.carried.push_back(i);
  const auto count = static_cast<Eigen::Index>(cases);
  sums.counts = Eigen::MatrixXd::Identity(count, count);
  return sums;
}

}  // namespace

CaseSums sums_of_cases(const std::vector<CaseResult>& cases) {
  if (cases.empty()) return {};
  Eigen::MatrixXd columns = columns_of(cases);
  if (!columns.allFinite()) return all_of(cases.size());
  const Eigen::VectorXd sizes =
      columns.colwise().norm().transpose().unaryExpr([](double s) { return s > 0.0 ? s : 1.0; });
  columns *= sizes.cwiseInverse().asDiagonal();

  // Columns of length one, the least dependent first: counts stay of the order of one.
  Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr;
  qr.setThreshold(left_over);
  qr.compute(columns);
  const Eigen::Index rank = qr.rank();
  const auto order = qr.colsPermutation().indices();
  CaseSums sums;
  for (Eigen::Index k = 0; k < rank; ++k)
    sums.carried.push_back(static_cast<std::size_t>(order[k]));
  std::sort(sums.carried.begin(), sums.carried.end());

  sums.counts = Eigen::MatrixXd::Zero(rank, columns.cols());
  const Eigen::MatrixXd inner =
      qr.matrixR()
          .topLeftCorner(rank, rank)
          .triangularView<Eigen::Upper>()
          .solve(qr.matrixR().topRightCorner(rank, columns.cols() - rank));
  const auto row_of = [&](Eigen::Index k) {
    return std::lower_bound(sums.carried.begin(), sums.carried.end(),
                            static_cast<std::size_t>(order[k])) -
           sums.carried.begin();
  };
  for (Eigen::Index k = 0; k < rank; ++k) {
    sums.counts(row_of(k), order[k]) = 1.0;
    for (Eigen::Index j = rank; j < columns.cols(); ++j)
      sums.counts(row_of(k), order[j]) = inner(k, j - rank) * sizes[order[j]] / sizes[order[k]];
  }
  return sums;
}

}  // namespace crossgrain
