// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

namespace crossgrain {

/// Symmetric matrix of 3x3 node blocks, compressed rows; only blocks with column >= row are kept.
struct BlockMatrix {
  std::vector<Eigen::Index> row_start;              ///< nodes + 1
  std::vector<int> column;                          ///< ascending in each row, the diagonal first
  Eigen::Matrix<double, 9, Eigen::Dynamic> blocks;  ///< column-major 3x3 each

  Eigen::Index nodes() const { return std::ssize(row_start) - 1; }
  auto block(Eigen::Index k) { return Eigen::Map<Eigen::Matrix3d>(blocks.col(k).data()); }
  auto block(Eigen::Index k) const {
    return Eigen::Map<const Eigen::Matrix3d>(blocks.col(k).data());
  }
};

/// @param x  3 nodes x n.
Eigen::MatrixXd operator*(const BlockMatrix& A, const Eigen::MatrixXd& x);

}  // namespace crossgrain
