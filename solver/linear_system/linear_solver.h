// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "solver/assembly/stiffness_assembly.h"
#include "solver/iteration/conjugate_gradients.h"
#include "solver/iteration/with_springs.h"
#include "solver/multigrid/corner_choice.h"

namespace crossgrain {

/// Solves (K + additions) u = f on what supports leave free: conjugate gradients, in front of them
/// either the complete factor, which makes them a refinement of one or two steps, or a cycle of
/// p-multigrid. Both are made of the stiffness with its additions, and serve on while other
/// additions cost few iterations.
class LinearSolver {
 public:
  struct Way {
    bool direct = false;
    CornerMethod corner_method = CornerMethod::automatic;  ///< where it is not direct
  };
  /// Both are kept by reference.
  LinearSolver(const StiffnessAssembly& assembly, const FreeDirections& free, const Way& way,
               int threads);
  ~LinearSolver();

  /// Make ready for the stiffness that the assembly holds.
  /// @param additions  kept by reference.
  /// @param keep_coarse  the old coarse factor is near enough.
  /// @return the rank of a node at which the matrix is not positive definite, or -1.
  std::int64_t make_ready(const AdditionsByRank& additions, bool keep_coarse);
  /// The additions are others than those that it was made ready for.
  void additions_changed() { outdated_ = true; }

  /// @param u  the start, and the solution.
  /// @return not reached, with `outdated()`: it takes too many iterations and has to be made ready.
  Convergence solve(const NodeVectors<double>& f, NodeVectors<double>& u, double tolerance);
  bool outdated() const { return outdated_; }

  /// Forces K u, supports and additions not counted.
  void internal_forces(const NodeVectors<double>& u, NodeVectors<double>& f) const;

  bool direct() const { return direct_; }
  bool corners_exact() const;  ///< or all of it, where it is direct
  std::string method() const;  ///< in words

 private:
  std::int64_t make_inner_ready(const AddedBlocks& added, bool keep_coarse);

  const StiffnessAssembly& assembly_;
  const FreeDirections& free_;
  bool direct_;
  int threads_;
  BlockProduct product_;
  std::unique_ptr<Preconditioner> preconditioner_;
  std::optional<WithSprings> with_springs_;  ///< around it, if there are any
  const AdditionsByRank* additions_ = nullptr;
  bool outdated_ = false;  ///< made for other additions
  int iterations_when_new_ = 0;
};

}  // namespace crossgrain
