// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cstdint>
#include <vector>

#include "solver/blocks/memory.h"

namespace crossgrain {

/// Where the blocks of a symmetric matrix of 3x3 node blocks stand: compressed rows, only blocks
/// with column >= row are kept.
struct BlockPattern {
  std::vector<std::int64_t> row_start;  ///< nodes + 1
  std::vector<int> column;              ///< ascending in each row, the diagonal first

  Eigen::Index nodes() const { return std::ssize(row_start) - 1; }
  Eigen::Index size() const { return std::ssize(column); }
  /// Number of the block at (row, column); column >= row. -1: there is none.
  Eigen::Index find(int row, int column_wanted) const;
};

/// The blocks of a pattern, column-major, with room behind them so that the kernels may read on.
template <class Scalar>
class Blocks {
 public:
  /// Values are lost if the number changes.
  void resize(Eigen::Index count) {
    if (count == count_) return;
    values_ = LargeArray<Scalar>(9 * count + read_on);
    count_ = count;
    std::fill_n(values_.data() + 9 * count, read_on, Scalar{0});
  }
  void set_zero() { std::fill_n(values_.data(), 9 * count_, Scalar{0}); }
  Eigen::Index size() const { return count_; }
  auto operator[](Eigen::Index k) { return Eigen::Map<Block>(values_.data() + 9 * k); }
  auto operator[](Eigen::Index k) const { return Eigen::Map<const Block>(values_.data() + 9 * k); }
  Scalar* data() { return values_.data(); }
  const Scalar* data() const { return values_.data(); }

 private:
  static constexpr Eigen::Index read_on = 16;
  using Block = Eigen::Matrix<Scalar, 3, 3>;
  Eigen::Index count_ = 0;
  LargeArray<Scalar> values_;
};

}  // namespace crossgrain
