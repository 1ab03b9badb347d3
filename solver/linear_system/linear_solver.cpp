// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/linear_system/linear_solver.h"

#include "solver/linear_system/complete_factor.h"
#include "solver/multigrid/two_level_cycle.h"

namespace crossgrain {
namespace {

// A complete factor leaves round-off only: go as far as that lets us.
constexpr double direct_tolerance = 1e-11;

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

std::int64_t LinearSolver::stiffness_changed(bool keep_coarse) {
  if (direct_) return static_cast<CompleteFactor&>(*preconditioner_).set_matrix(assembly_.matrix());
  auto& cycle = static_cast<TwoLevelCycle&>(*preconditioner_);
  cycle.set_fine_matrix(assembly_.matrix(), assembly_.straight_elements());
  return keep_coarse ? -1 : cycle.set_corner_matrix(assembly_.corner_matrix());
}

Convergence LinearSolver::solve(const StiffnessAdditions& additions, const NodeVectors<double>& f,
                                NodeVectors<double>& u, double tolerance) {
  const StiffnessOperator A(assembly_.matrix(), product_, free_, additions);
  ConvergenceLimits limits;
  limits.tolerance = direct_ ? direct_tolerance : tolerance;
  return conjugate_gradients(A, *preconditioner_, f, u, limits, threads_);
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
