// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/mesh_error.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cases/judgement/factor_slope.h"
#include "cases/judgement/limit_parts.h"
#include "solver/error/quantity_error.h"
#include "solver/error/stress_functional.h"
#include "solver/stress/body_points.h"

namespace crossgrain {
namespace {

// How fast an element's error loses weight as its factor grows: at twice the least it counts a
// sixteenth.
constexpr double weight_of_weakness = 4.0;

/// Errors of elements in energy, weighted by how near they are to giving way. Many places of a part
/// are often as weak as the governing one, and the next mesh may find another of them the weakest.
Eigen::VectorXd weakness_shares(const Eigen::VectorXd& energy_errors, const JudgedModel& model,
                                const CaseResult& judged, double least_factor) {
  const TetrahedronMesh& mesh = model.mesh;
  const BodyPoints point_at(model.sites.points);
  Eigen::VectorXd shares = energy_errors;
  for (Eigen::Index t = 0; t < shares.size(); ++t) {
    double factor = std::numeric_limits<double>::infinity();
    for (int k = 0; k < 10; ++k)
      factor = std::min(
          factor,
          judged.fields.overall[point_at.of(mesh.tetrahedra(k, t), mesh.body_of_tetrahedron[t])]);
    shares[t] *= std::pow(std::min(1.0, least_factor / factor), weight_of_weakness);
  }
  return shares;
}

}  // namespace

MeshErrorEstimate estimate_mesh_error(const GoverningState& state, const JudgedModel& model,
                                      const Loading& loading, const ElementarySolution& solution,
                                      const MaterialField& field, const CaseResult& judged,
                                      const GoverningPlace& place, StaticSolver& solver) {
  const TetrahedronMesh& mesh = model.mesh;
  const auto& points = model.sites.points;
  const SumOfLoads at_limit =
      sum_of_loads(state.at_limit(loading.cases[state.load_case]), loading, solution);
  if (loading.joined)
    solver.set_additions(limit_parts(state, mesh, loading, solution).front().joint->stiffness);
  MeshErrorEstimate estimate;
  estimate.counted =
      solver.solve(stress_functional(mesh, field, model.sites.fit.shares(state.site),
                                     factor_slope(state, {state, model, loading, solution, field})),
                   Unbalanced::left_to_inertia);

  const QuantityError error = estimate_quantity_error(
      mesh, field, points, {at_limit.displacement, at_limit.temperature_change}, estimate.counted,
      place.converged());
  const Eigen::VectorXd weakness =
      weakness_shares(error.energy_shares, model, judged, state.factor);

  const double energy_of_error = error.energy_shares.sum();
  const double energy =
      2.0 * strain_energy(mesh, field, at_limit.displacement, at_limit.temperature_change);
  estimate.error.energy = std::sqrt(energy_of_error / (energy + energy_of_error));
  const double factor_error = error.quantity_shares.sum();
  estimate.error.factor =
      std::max(factor_error, std::abs(place.resolved_alike.value_or(state.factor) - state.factor));
  estimate.factor_shares = error.quantity_shares;
  if (weakness.sum() > 0.0)
    estimate.factor_shares =
        0.5 * (error.quantity_shares + weakness * (factor_error / weakness.sum()));
  return estimate;
}

}  // namespace crossgrain
