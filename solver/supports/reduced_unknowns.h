// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/linear_system/block_matrix.h"
#include "solver/linear_system/sparse_cholesky.h"
#include "solver/supports/rigid_motions.h"

namespace crossgrain {

/// The unknowns that constraints leave: held directions are eliminated exactly by turning each
/// constrained node into a basis of its free directions. u = F q with orthonormal F, so the
/// stiffness of q is F^t K F and its forces are F^t f.
class ReducedUnknowns {
 public:
  /// @param group_of_node  -1: a node of no element, which has no unknowns.
  ReducedUnknowns(const std::vector<int>& group_of_node,
                  const std::vector<NodeConstraint>& constraints);

  Eigen::Index count() const { return first_.back(); }
  /// First unknown of a node; the next node's is one past its last.
  const std::vector<Eigen::Index>& first() const { return first_; }

  Eigen::MatrixXd restricted(const Eigen::MatrixXd& full) const;   ///< F^t x
  Eigen::MatrixXd expanded(const Eigen::MatrixXd& reduced) const;  ///< F q

  /// Lower triangle of F^t K F; refills `lower` in place if it has been laid out before.
  void reduce(const BlockMatrix& K, LowerTriangle& lower) const;

 private:
  void lay_out(const BlockMatrix& K, LowerTriangle& lower) const;

  std::vector<NodeDirections> free_;  ///< per node
  std::vector<Eigen::Index> first_;   ///< nodes + 1
};

}  // namespace crossgrain
