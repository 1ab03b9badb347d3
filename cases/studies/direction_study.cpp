// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/direction_study.h"

#include <algorithm>
#include <cmath>

#include "cases/judgement/balance.h"
#include "cases/judgement/constant_effects.h"
#include "cases/judgement/factor_range.h"
#include "cases/judgement/followed_factor.h"
#include "cases/judgement/governing_place.h"
#include "cases/judgement/mesh_error.h"
#include "cases/judgement/verdict.h"
#include "cases/studies/prints.h"

namespace crossgrain {
namespace {

/// Say how what is printed stands: along one direction, or each body along its own.
void say_directions(const std::vector<Print>& prints, DirectionRow& row) {
  row.direction = prints.front().build;
  for (const Print& print : prints)
    for (const BodyId body : print.bodies) row.of_bodies.push_back({body, print.build});
  const bool one = std::ranges::all_of(
      prints, [&](const Print& print) { return print.build.isApprox(row.direction, 1e-9); });
  if (one) row.of_bodies.clear();
}

std::optional<MeshError> mesh_error_of(const RunResult& run, const Geometry& geometry,
                                       const JudgedModel& model, const Loading& loading,
                                       const ElementarySolution& solution,
                                       const MaterialField& field, StaticSolver& solver) {
  const auto state = governing_state(run, model.sites);
  if (!state) return {};
  const GoverningPlace place = look_at_governing(*state, {}, geometry, loading.support_edges, model,
                                                 loading, solution, field);
  return estimate_mesh_error(*state, model, loading, solution, field, run.cases[state->load_case],
                             place, solver)
      .error;
}

}  // namespace

StudiedPrinting study_printing(StaticSolver& solver, const JudgedModel& model, Loading& loading,
                               const MaterialField& field, const MeshedGeometry& meshed,
                               const std::string& name, const Eigen::MatrixXd* start) {
  RunResult run;
  run.targets = model.targets;
  solver.set_material(field);
  update_field_loads(loading, model.mesh, field);
  ElementarySolution solution =
      solve_loads(solver, model.mesh, field, model.sites.fit, loading, start);
  run.cases = judge_cases(model, loading, solution, field, MaterialSet::nominal);
  run.balance = check_balance(model.mesh, loading, solution, solver, meshed.report);
  find_worst(run);
  run.mesh_error = mesh_error_of(run, meshed.geometry, model, loading, solution, field, solver);
  const auto followed = follow_factors(run.cases, solver, model, loading, field, solution);
  add_ranges(run.cases, solver, model, loading, field, solution,
             stiffness_ends({}, model.materials));
  for (const FollowedFactor& factor : followed) take_in(factor, run.cases[factor.load_case]);
  conclude(run, 0);  // no layers asked for: the mesh is judged by the main run
  DirectionRow row{};
  row.name = name;
  say_directions(prints_of(model.mesh, field, model.sites.body_names), row);
  row.factor = worse_of(run.factor, run.pressure_factor);
  row.governing = run.governing;
  row.governing_case = run.governing_case;
  if (run.mesh_error && std::isfinite(run.mesh_error->factor))
    row.mesh_error = run.mesh_error->factor;
  row.allowable_pressure_MPa = run.allowable_pressure_MPa;
  row.displacement_max_mm = run.displacement_max_mm;
  row.distrust = run.distrust;
  for (const CaseResult& judged : run.cases)
    row.cases.push_back(
        {case_title(judged.name, judged.bound), judged.all_loads.factor,
         judged.scaling_loads.applies ? std::optional(judged.scaling_loads.factor) : std::nullopt});
  return {std::move(row), std::move(solution)};
}

std::vector<DirectionRow> study_directions(StaticSolver& solver, const JudgedModel& model,
                                           Loading& loading, const MaterialField& field,
                                           const MeshedGeometry& meshed,
                                           const std::vector<NamedDirection>& directions) {
  std::vector<DirectionRow> rows;
  for (const auto& named : directions) {
    MaterialField turned = field;
    for (auto& frame : turned.frames) frame = frame_along(named.direction);
    rows.push_back(study_printing(solver, model, loading, turned, meshed, named.name).row);
    rows.back().direction = named.direction;
  }
  return rows;
}

}  // namespace crossgrain
