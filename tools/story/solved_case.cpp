// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/story/solved_case.h"

#include "cases/judgement/governing_place.h"
#include "cases/judgement/hidden_zone.h"
#include "cases/judgement/mesh_error.h"
#include "cases/judgement/raw_stress.h"
#include "cases/judgement/verdict.h"
#include "tools/terminal/interrupt.h"

namespace crossgrain {
namespace {

/// Without limit, besides the inner ones: of supports, and where the stress has grown so far.
std::vector<EdgeId> other_edges(const Loading& loading, const RunResult& result) {
  std::vector<EdgeId> edges = loading.support_edges;
  for (const GrowingEdge& growing : result.growing_edges) edges.push_back(growing.edge);
  return edges;
}

void look_at_mesh(const PreparedCase& prepared, const std::vector<SizeBall>& balls,
                  SolvedCase& solved, RunResult& result) {
  const auto state = governing_state(result, prepared.sites);
  result.governing_place.reset();
  result.mesh_error.reset();
  result.hidden_zone.reset();
  solved.raw_at_edges.clear();
  if (!state) return;
  const Geometry& geometry = prepared.meshed.geometry;
  result.governing_place =
      look_at_governing(*state, balls, geometry, other_edges(prepared.loading, result),
                        solved.model, prepared.loading, solved.solution, prepared.field);
  result.hidden_zone = hidden_zone(result, solved.model);
  const RawStress raw(*state, solved.model, prepared.loading, solved.solution, prepared.field);
  result.governing_place->raw = raw.worst();
  solved.raw_at_edges = raw.at_edges(geometry);
  MeshErrorEstimate estimate =
      estimate_mesh_error(*state, solved.model, prepared.loading, solved.solution, prepared.field,
                          result.cases[state->load_case], *result.governing_place, solved.solver);
  result.mesh_error = estimate.error;
  solved.factor_shares = std::move(estimate.factor_shares);
  solved.counted = std::move(estimate.counted);
}

}  // namespace

std::unique_ptr<SolvedCase> solve_case(PreparedCase& prepared, const std::vector<SizeBall>& balls,
                                       const Eigen::MatrixXd* start, int threads,
                                       ProgressLine& progress, Stopwatch& stopwatch,
                                       RunResult& result) {
  progress.show("solving");
  auto solved = std::make_unique<SolvedCase>(prepared, threads);
  solved->solver.set_material(prepared.field);
  solved->solution = solve_loads(solved->solver, prepared.meshed.mesh, prepared.field,
                                 prepared.sites.fit, prepared.loading, start);
  result.solve_report = solved->solver.report();
  stopwatch.lap("solve");
  stop_if_interrupted();

  progress.show("judging every load case");
  result.cases = judge_cases(solved->model, prepared.loading, solved->solution, prepared.field,
                             MaterialSet::nominal);
  find_worst(result);
  stopwatch.lap("judge");
  stop_if_interrupted();

  progress.show("estimating the mesh's error");
  look_at_mesh(prepared, balls, *solved, result);
  stopwatch.lap("mesh error");
  stop_if_interrupted();
  return solved;
}

}  // namespace crossgrain
