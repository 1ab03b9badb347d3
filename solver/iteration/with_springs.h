// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Cholesky>
#include <vector>

#include "solver/blocks/free_directions.h"
#include "solver/iteration/additions.h"
#include "solver/iteration/preconditioner.h"

namespace crossgrain {

/// A preconditioner of a stiffness with springs made of one without them: exactly its inverse with
/// V S V^t added, by the formula of Sherman, Morrison and Woodbury. A screw's hundreds of nodes
/// need not become neighbours, and its stiffness may change, or vanish, at no cost.
class WithSprings : public Preconditioner {
 public:
  /// Applies the inner one once for each spring.
  /// @param inner    kept by reference; not to change while this is used.
  /// @param springs  nodes by rank; those without stiffness may get some later.
  WithSprings(const Preconditioner& inner, const FreeDirections& free,
              const std::vector<StiffnessAdditions::Spring>& springs, Eigen::Index nodes);

  /// Take other stiffness of the same springs. If they are not the same nothing is taken: this is
  /// the inverse of another matrix then, which the iterations tell.
  void set_stiffness(const std::vector<StiffnessAdditions::Spring>& springs);

  void apply(const NodeVectors<double>& r, NodeVectors<double>& z) const override;

 private:
  using Shares = std::vector<StiffnessAdditions::Spring::Share>;
  const Preconditioner& inner_;
  std::vector<Shares> shares_;
  std::vector<Shares> free_shares_;     ///< within the free directions, each node once
  Eigen::MatrixXf moved_;               ///< inner V: (3 nodes) x springs
  Eigen::MatrixXd give_;                ///< V^t inner V
  std::vector<int> active_;             ///< springs that have stiffness
  Eigen::LLT<Eigen::MatrixXd> factor_;  ///< of S^-1 + V^t inner V of these
};

}  // namespace crossgrain
