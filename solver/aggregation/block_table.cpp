// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/aggregation/block_table.h"

#include <algorithm>
#include <numeric>

#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

constexpr Eigen::Index pieces = 16;

/// Rows begin..end of a product.
template <class Left>
BlockTable rows_of_product(const Left& left, const BlockTable& right, Half half, Eigen::Index begin,
                           Eigen::Index end) {
  BlockTable result{right.columns, {0}, {}, {}};
  std::vector<int> place(right.columns, -1);  // of each column in the row at work
  std::vector<int> columns;
  std::vector<Eigen::Matrix3d> sums;
  for (auto row = begin; row < end; ++row) {
    columns.clear();
    sums.clear();
    left.for_each_in_row(row, [&](int inner, const auto& factor) {
      right.for_each_in_row(inner, [&](int column, const Eigen::Matrix3d& block) {
        if (half == Half::upper && column < row) return;
        if (place[column] < 0) {
          place[column] = static_cast<int>(columns.size());
          columns.push_back(column);
          sums.emplace_back(Eigen::Matrix3d::Zero());
        }
        sums[place[column]].noalias() += factor * block;
      });
    });
    std::sort(columns.begin(), columns.end());
    for (const int column : columns) {
      result.column.push_back(column);
      result.block.push_back(sums[place[column]]);
      place[column] = -1;
    }
    result.row_start.push_back(std::ssize(result.column));
  }
  return result;
}

template <class Left>
BlockTable whole_product(const Left& left, const BlockTable& right, Half half, int threads) {
  std::vector<BlockTable> parts(pieces);
  in_parallel(pieces, threads, [&](Eigen::Index first, Eigen::Index last) {
    for (auto piece = first; piece < last; ++piece)
      parts[piece] = rows_of_product(left, right, half, left.rows() * piece / pieces,
                                     left.rows() * (piece + 1) / pieces);
  });
  std::size_t blocks = 0;
  for (const auto& part : parts) blocks += part.column.size();
  BlockTable result{right.columns, {0}, {}, {}};
  result.row_start.reserve(left.rows() + 1);
  result.column.reserve(blocks);
  result.block.reserve(blocks);
  for (auto& part : parts) {
    const auto before = result.row_start.back();
    for (Eigen::Index row = 0; row < part.rows(); ++row)
      result.row_start.push_back(before + part.row_start[row + 1]);
    result.column.insert(result.column.end(), part.column.begin(), part.column.end());
    result.block.insert(result.block.end(), part.block.begin(), part.block.end());
    part = {};
  }
  return result;
}

}  // namespace

BlockTable transposed(const BlockTable& table) {
  BlockTable result{table.rows(), std::vector<std::int64_t>(table.columns + 1, 0), {}, {}};
  for (const int column : table.column) ++result.row_start[column + 1];
  std::partial_sum(result.row_start.begin(), result.row_start.end(), result.row_start.begin());
  result.column.resize(table.column.size());
  result.block.resize(table.block.size());
  std::vector<std::int64_t> next(result.row_start.begin(), result.row_start.end() - 1);
  for (Eigen::Index row = 0; row < table.rows(); ++row)
    table.for_each_in_row(row, [&](int column, const Eigen::Matrix3d& block) {
      result.column[next[column]] = static_cast<int>(row);
      result.block[next[column]++] = block.transpose();
    });
  return result;
}

SymmetricRows::SymmetricRows(const BlockPattern& pattern, const Blocks<double>& A)
    : pattern_(pattern),
      A_(A),
      mirrored_start_(pattern.nodes() + 1, 0),
      mirrored_(pattern.size() - pattern.nodes()) {
  for (Eigen::Index row = 0; row < rows(); ++row)
    for (auto k = pattern.row_start[row] + 1; k < pattern.row_start[row + 1]; ++k)
      ++mirrored_start_[pattern.column[k] + 1];
  std::partial_sum(mirrored_start_.begin(), mirrored_start_.end(), mirrored_start_.begin());
  std::vector<std::int64_t> next(mirrored_start_.begin(), mirrored_start_.end() - 1);
  for (Eigen::Index row = 0; row < rows(); ++row)
    for (auto k = pattern.row_start[row] + 1; k < pattern.row_start[row + 1]; ++k)
      mirrored_[next[pattern.column[k]]++] = {static_cast<int>(row), k};
}

BlockTable product(const SymmetricRows& left, const BlockTable& right, int threads) {
  return whole_product(left, right, Half::both, threads);
}

BlockTable product(const BlockTable& left, const BlockTable& right, Half half, int threads) {
  return whole_product(left, right, half, threads);
}

}  // namespace crossgrain
