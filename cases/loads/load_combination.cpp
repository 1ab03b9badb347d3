// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/load_combination.h"

#include <algorithm>

#include "cases/loads/joint_states.h"

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

std::vector<bool> wanted_states(const Loading& loading, const LoadCase* only) {
  std::vector<bool> wanted(loading.loads.size(), only == nullptr);
  for (std::size_t i = 0; only && i < wanted.size(); ++i)
    wanted[i] = only->held[i] != 0.0 || only->scaling[i] != 0.0;
  return wanted;
}

void answer_states(StaticSolver& solver, const TetrahedronMesh& mesh, Loading& loading,
                   const Eigen::MatrixXd* start, const LoadCase* only,
                   ElementarySolution& solution) {
  const JoinedBodies& joined = *loading.joined;
  solution.joint_states = solve_states(solver, mesh, joined, wanted_states(loading, only), start);
  solution.displacement.resize(mesh.unknowns(), static_cast<Eigen::Index>(joined.states.size()));
  for (std::size_t i = 0; i < joined.states.size(); ++i) {
    const JointSolution& state = solution.joint_states[i];
    solution.displacement.col(static_cast<Eigen::Index>(i)) = state.displacement;
    loading.loads[i] = outside_load(joined, joined.states[i]);
    loading.loads[i].nodal_forces += state.forces;
    loading.loads[i].resultant = resultant(mesh, loading.loads[i].nodal_forces);
  }
}

}  // namespace

ElementarySolution solve_loads(StaticSolver& solver, const TetrahedronMesh& mesh,
                               const MaterialField& field, const BeadFit& fit, Loading& loading,
                               const Eigen::MatrixXd* start, const LoadCase* only) {
  ElementarySolution solution;
  if (loading.joined) {
    answer_states(solver, mesh, loading, start, only, solution);
  } else {
    solution.carried_by_inertia = require_balanced_cases(solver, loading);
    solution.displacement = solver.solve(load_matrix(loading), Unbalanced::left_to_inertia, start);
  }
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
