// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/load_combination.h"

#include <algorithm>

namespace crossgrain {
namespace {

/// Sum of coefficient * field over the loads; zero coefficients cost nothing.
StressField weighted_sum(const std::vector<double>& coefficients,
                         const std::vector<StressField>& stress) {
  StressField sum = StressField::Zero(6, stress.empty() ? 0 : stress.front().cols());
  for (std::size_t i = 0; i < stress.size(); ++i) {
    if (coefficients[i] != 0.0) sum += coefficients[i] * stress[i];
  }
  return sum;
}

bool any_nonzero(const std::vector<double>& coefficients) {
  for (const double c : coefficients) {
    if (c != 0.0) return true;
  }
  return false;
}

double require_balanced_cases(const StaticSolver& solver, const Loading& loading) {
  const Eigen::MatrixXd loads = load_matrix(loading);
  double largest = 0.0;
  for (const LoadCase& load_case : loading.cases) {
    Eigen::VectorXd sum = Eigen::VectorXd::Zero(loads.rows());
    for (Eigen::Index i = 0; i < loads.cols(); ++i) {
      sum += (load_case.held[i] + load_case.scaling[i]) * loads.col(i);
    }
    const std::string bound = load_case.bound.empty() ? "" : " (" + load_case.bound + ")";
    largest = std::max(largest,
                       solver.require_balanced(sum, "load case '" + load_case.name + "'" + bound));
  }
  return largest;
}

}  // namespace

ElementarySolution solve_loads(StaticSolver& solver, const TetrahedronMesh& mesh,
                               const MaterialField& field, const BeadFit& fit,
                               const Loading& loading, const Eigen::MatrixXd* start) {
  ElementarySolution solution;
  solution.carried_by_inertia = require_balanced_cases(solver, loading);
  solution.displacement = solver.solve(load_matrix(loading), Unbalanced::left_to_inertia, start);
  for (std::size_t i = 0; i < loading.loads.size(); ++i) {
    solution.stress.push_back(
        fit.of(element_stress(mesh, field, solution.displacement.col(static_cast<int>(i)),
                              loading.loads[i].temperature_change)));
  }
  return solution;
}

SumOfLoads sum_of_loads(const std::vector<double>& counts, const Loading& loading,
                        const ElementarySolution& solution) {
  SumOfLoads sum{Eigen::VectorXd::Zero(solution.displacement.rows()), {}};
  for (std::size_t i = 0; i < loading.loads.size(); ++i) {
    if (counts[i] == 0.0) continue;
    sum.displacement += counts[i] * solution.displacement.col(static_cast<Eigen::Index>(i));
    const Eigen::VectorXd& change = loading.loads[i].temperature_change;
    if (change.size() == 0) continue;
    if (sum.temperature_change.size() == 0)
      sum.temperature_change = Eigen::VectorXd::Zero(change.size());
    sum.temperature_change += counts[i] * change;
  }
  return sum;
}

CombinedCase combine(const LoadCase& load_case, const Loading& loading,
                     const ElementarySolution& solution) {
  const std::vector<double> together = load_case.together();
  CombinedCase combined;
  combined.nodal_forces = Eigen::VectorXd::Zero(solution.displacement.rows());
  for (std::size_t i = 0; i < loading.loads.size(); ++i)
    if (together[i] != 0.0) combined.nodal_forces += together[i] * loading.loads[i].nodal_forces;
  SumOfLoads sum = sum_of_loads(together, loading, solution);
  combined.displacement = std::move(sum.displacement);
  combined.temperature_change = std::move(sum.temperature_change);
  combined.held = weighted_sum(load_case.held, solution.stress);
  combined.scaling = weighted_sum(load_case.scaling, solution.stress);
  combined.anything_held = any_nonzero(load_case.held);
  combined.anything_scales = any_nonzero(load_case.scaling);
  return combined;
}

}  // namespace crossgrain
