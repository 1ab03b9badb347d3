// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/linear_system/linear_solver.h"

#include <algorithm>

#include "solver/linear_system/complete_factor.h"
#include "solver/multigrid/two_level_cycle.h"

namespace crossgrain {
namespace {

// A complete factor leaves round-off only: go as far as that lets us. One made for other additions
// iterates for every digit: then a step on a way goes two digits beyond what is asked of it.
constexpr double direct_tolerance = 1e-11;
constexpr double beyond_what_is_asked = 1e-2;
// Measured on the filter bowl: coarse elements are bowed more, and smoothed as straight ones they
// take 24 iterations for 16 at 65,000 unknowns, 18 for 13 at 89,000, in the same time; from 160,000
// on (14 for 12) a tenth less, at a million and more an eighth.
constexpr Eigen::Index fewest_nodes_by_elements = 33'000;

// Making ready takes the time of six iterations or more. What was made for other additions may take
// twice as many beyond those of a new one, since it may serve for the next ones too.
constexpr int iterations_of_making_ready = 12;

}  // namespace

LinearSolver::LinearSolver(const StiffnessAssembly& assembly, const FreeDirections& free,
                           const Way& way, int threads)
    : assembly_(assembly),
      free_(free),
      direct_(way.direct),
      threads_(threads),
      product_(assembly.pattern(), threads) {
  if (direct_)
    preconditioner_ = std::make_unique<CompleteFactor>(assembly.pattern(), free, threads);
  else
    preconditioner_ = std::make_unique<TwoLevelCycle>(assembly.pattern(), assembly.corner_pattern(),
                                                      assembly.linear_level(), product_, free,
                                                      way.corner_method, threads);
}

LinearSolver::~LinearSolver() = default;

std::int64_t LinearSolver::make_ready(const AdditionsByRank& additions, bool keep_coarse) {
  additions_ = &additions;
  // A kept coarse factor that was made for other additions stays under suspicion.
  outdated_ = outdated_ && keep_coarse && !direct_;
  if (!outdated_) iterations_when_new_ = 0;
  with_springs_.reset();
  const auto bad = make_inner_ready(additions.preconditioned, keep_coarse);
  if (bad < 0 && !additions.springs.empty())
    with_springs_.emplace(*preconditioner_, free_, additions.springs, assembly_.pattern().nodes());
  return bad;
}

std::int64_t LinearSolver::make_inner_ready(const AddedBlocks& added, bool keep_coarse) {
  if (direct_)
    return static_cast<CompleteFactor&>(*preconditioner_).set_matrix(assembly_.matrix(), added);
  auto& cycle = static_cast<TwoLevelCycle&>(*preconditioner_);
  const StraightElements& elements = assembly_.straight_elements();
  const bool by_elements =
      elements.usable() && assembly_.pattern().nodes() >= fewest_nodes_by_elements;
  if (!keep_coarse)
    if (const auto bad = cycle.set_corner_matrix(assembly_.corner_matrix(), added); bad >= 0)
      return bad;
  cycle.set_fine_matrix(assembly_.matrix(), by_elements ? &elements : nullptr, added);
  return -1;
}

Convergence LinearSolver::solve(const NodeVectors<double>& f, NodeVectors<double>& u,
                                double tolerance) {
  const StiffnessOperator A(assembly_.matrix(), product_, free_, *additions_);
  ConvergenceLimits limits;
  limits.tolerance = !direct_    ? tolerance
                     : outdated_ ? std::max(direct_tolerance, beyond_what_is_asked * tolerance)
                                 : direct_tolerance;
  // Each spring takes another application of the preconditioner to be made ready for.
  if (outdated_)
    limits.iterations = iterations_when_new_ + iterations_of_making_ready +
                        static_cast<int>(additions_->springs.size());
  if (with_springs_) with_springs_->set_stiffness(additions_->springs);
  const Preconditioner& M = with_springs_ ? *with_springs_ : *preconditioner_;
  const auto result = conjugate_gradients(A, M, f, u, limits, threads_);
  if (!outdated_) iterations_when_new_ = std::max(iterations_when_new_, result.iterations);
  return result;
}

bool LinearSolver::corners_exact() const {
  return direct_ || static_cast<const TwoLevelCycle&>(*preconditioner_).corners().exact();
}

std::string LinearSolver::method() const {
  if (direct_) return "sparse Cholesky";
  return std::string("conjugate gradients, p-multigrid") + (corners_exact() ? "" : ", aggregation");
}

void LinearSolver::internal_forces(const NodeVectors<double>& u, NodeVectors<double>& f) const {
  product_.apply(assembly_.matrix(), u, f);
}

}  // namespace crossgrain
