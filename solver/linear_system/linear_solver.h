// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <string>

#include "solver/assembly/stiffness_assembly.h"
#include "solver/iteration/conjugate_gradients.h"
#include "solver/multigrid/corner_choice.h"

namespace crossgrain {

/// Solves (K + additions) u = f on what supports leave free: conjugate gradients, in front of them
/// either the complete factor, which makes them a refinement of one or two steps, or a cycle of
/// p-multigrid. One door for both, so that additions cost neither a new factor.
class LinearSolver {
 public:
  struct Way {
    bool direct = false;
    CornerMethod corner_method = CornerMethod::automatic;  ///< where it is not direct
  };
  /// Both are kept by reference, as are the additions below.
  LinearSolver(const StiffnessAssembly& assembly, const FreeDirections& free, const Way& way,
               int threads);
  ~LinearSolver();

  /// The assembly holds another stiffness.
  /// @param keep_coarse  the old coarse factor is near enough.
  /// @return the rank of a node at which the matrix is not positive definite, or -1.
  std::int64_t stiffness_changed(bool keep_coarse);

  /// @param u  the start, and the solution.
  Convergence solve(const StiffnessAdditions& additions, const NodeVectors<double>& f,
                    NodeVectors<double>& u, double tolerance);

  /// Forces K u, supports and additions not counted.
  void internal_forces(const NodeVectors<double>& u, NodeVectors<double>& f) const;

  bool direct() const { return direct_; }
  bool corners_exact() const;  ///< or all of it, where it is direct
  std::string method() const;  ///< in words

 private:
  const StiffnessAssembly& assembly_;
  const FreeDirections& free_;
  bool direct_;
  int threads_;
  BlockProduct product_;
  std::unique_ptr<Preconditioner> preconditioner_;
};

}  // namespace crossgrain
