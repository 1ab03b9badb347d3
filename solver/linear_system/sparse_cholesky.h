// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <memory>
#include <vector>

#include "solver/linear_system/block_matrix.h"

namespace crossgrain {

/// Lower triangle of a symmetric matrix in compressed columns, rows ascending.
struct LowerTriangle {
  std::vector<std::int64_t> column_start;  ///< n + 1
  std::vector<std::int64_t> row;
  std::vector<double> value;

  std::int64_t size() const { return std::ssize(column_start) - 1; }
};

/// Fill-reducing order of the nodes (nested dissection of the node graph): order[k] is eliminated
/// k-th.
std::vector<std::int64_t> dissection_order(const BlockMatrix& graph);

/// L L^t of one pattern, for one set of values after another.
class SparseCholesky {
 public:
  /// Symbolic analysis. @param order  order[k] is eliminated k-th.
  SparseCholesky(const LowerTriangle& A, std::vector<std::int64_t> order);
  ~SparseCholesky();
  SparseCholesky(const SparseCholesky&) = delete;
  SparseCholesky& operator=(const SparseCholesky&) = delete;

  /// @return a row at which A turned out not to be positive definite, to round-off, or -1.
  /// @throws std::runtime_error if memory runs out.
  std::int64_t factorise(const LowerTriangle& A);

  Eigen::MatrixXd solve(const Eigen::MatrixXd& b) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace crossgrain
