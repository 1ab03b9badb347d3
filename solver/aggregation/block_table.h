// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/blocks/block_matrix.h"

namespace crossgrain {

/// A sparse matrix of 3x3 blocks that need not be square.
struct BlockTable {
  Eigen::Index columns = 0;
  std::vector<std::int64_t> row_start{0};  ///< rows + 1
  std::vector<int> column;                 ///< ascending in each row
  std::vector<Eigen::Matrix3d> block;

  Eigen::Index rows() const { return std::ssize(row_start) - 1; }

  /// visit(column, block), in ascending order.
  template <class Visit>
  void for_each_in_row(Eigen::Index row, const Visit& visit) const {
    for (auto k = row_start[row]; k < row_start[row + 1]; ++k) visit(column[k], block[k]);
  }
};

BlockTable transposed(const BlockTable& table);

/// The rows of a symmetric matrix of which only one half is kept.
class SymmetricRows {
 public:
  /// Both are kept by reference.
  SymmetricRows(const BlockPattern& pattern, const Blocks<double>& A);

  Eigen::Index rows() const { return pattern_.nodes(); }

  /// visit(column, block), in ascending order.
  template <class Visit>
  void for_each_in_row(Eigen::Index row, const Visit& visit) const {
    for (auto m = mirrored_start_[row]; m < mirrored_start_[row + 1]; ++m)
      visit(mirrored_[m].column, A_[mirrored_[m].block].transpose());
    for (auto k = pattern_.row_start[row]; k < pattern_.row_start[row + 1]; ++k)
      visit(pattern_.column[k], A_[k]);
  }

 private:
  struct Mirrored {
    int column;
    std::int64_t block;
  };
  const BlockPattern& pattern_;
  const Blocks<double>& A_;
  std::vector<std::int64_t> mirrored_start_;
  std::vector<Mirrored> mirrored_;  ///< left of the diagonal
};

/// Which columns of a product are wanted.
enum class Half { both, upper };

/// left * right. Sums are taken in the order of left's columns, whatever the number of threads.
BlockTable product(const SymmetricRows& left, const BlockTable& right, int threads);
BlockTable product(const BlockTable& left, const BlockTable& right, Half half, int threads);

}  // namespace crossgrain
