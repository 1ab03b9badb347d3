// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/linear_system/block_matrix.h"

#include <cassert>

namespace crossgrain {

Eigen::MatrixXd operator*(const BlockMatrix& A, const Eigen::MatrixXd& x) {
  assert(x.rows() == 3 * A.nodes());
  Eigen::MatrixXd y = Eigen::MatrixXd::Zero(x.rows(), x.cols());
  for (Eigen::Index c = 0; c < x.cols(); ++c) {
    const double* in = x.col(c).data();
    double* out = y.col(c).data();
    for (Eigen::Index i = 0; i < A.nodes(); ++i) {
      const Eigen::Vector3d x_i = Eigen::Map<const Eigen::Vector3d>(in + 3 * i);
      Eigen::Vector3d y_i = Eigen::Vector3d::Zero();
      for (Eigen::Index k = A.row_start[i]; k < A.row_start[i + 1]; ++k) {
        const Eigen::Index j = A.column[k];
        y_i += A.block(k) * Eigen::Map<const Eigen::Vector3d>(in + 3 * j);
        if (j != i) Eigen::Map<Eigen::Vector3d>(out + 3 * j) += A.block(k).transpose() * x_i;
      }
      Eigen::Map<Eigen::Vector3d>(out + 3 * i) += y_i;
    }
  }
  return y;
}

}  // namespace crossgrain
