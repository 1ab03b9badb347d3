// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/direction_study.h"

#include "cases/judgement/balance.h"
#include "cases/judgement/constant_effects.h"
#include "cases/judgement/factor_range.h"
#include "cases/judgement/followed_factor.h"
#include "cases/judgement/verdict.h"

namespace crossgrain {

namespace {

/// @param named  of the row; `turned` is what counts.
DirectionRow study(StaticSolver& solver, const JudgedModel& model, Loading& loading,
                   const MaterialField& turned, const MeshReport& mesh_report,
                   const NamedDirection& named, const Eigen::MatrixXd* start) {
  RunResult run;
  run.targets = model.targets;
  solver.set_material(turned);
  update_field_loads(loading, model.mesh, turned);
  const auto solution = solve_loads(solver, model.mesh, turned, model.sites.fit, loading, start);
  run.cases = judge_cases(model, loading, solution, turned, MaterialSet::nominal);
  run.balance = check_balance(model.mesh, loading, solution, solver, mesh_report);
  const auto followed = follow_factors(run.cases, solver, model, loading, turned, solution);
  add_ranges(run.cases, solver, model, loading, turned, solution,
             stiffness_ends({}, model.materials));
  for (const FollowedFactor& factor : followed) take_in(factor, run.cases[factor.load_case]);
  conclude(run, 0);  // no layers asked for: the mesh is judged by the main run
  DirectionRow row{};
  row.name = named.name;
  row.direction = named.direction;
  row.factor = worse_of(run.factor, run.pressure_factor);
  row.governing = run.governing;
  row.governing_case = run.governing_case;
  row.allowable_pressure_MPa = run.allowable_pressure_MPa;
  row.displacement_max_mm = run.displacement_max_mm;
  row.distrust = run.distrust;
  for (const CaseResult& judged : run.cases)
    row.cases.push_back(
        {case_title(judged.name, judged.bound), judged.all_loads.factor,
         judged.scaling_loads.applies ? std::optional(judged.scaling_loads.factor) : std::nullopt});
  return row;
}

}  // namespace

std::vector<DirectionRow> study_directions(StaticSolver& solver, const JudgedModel& model,
                                           Loading& loading, const MaterialField& field,
                                           const MeshReport& mesh_report,
                                           const std::vector<NamedDirection>& directions,
                                           const Eigen::MatrixXd* start) {
  std::vector<DirectionRow> rows;
  for (const auto& named : directions) {
    MaterialField turned = field;
    for (auto& frame : turned.frames) frame = frame_along(named.direction);
    rows.push_back(
        study(solver, model, loading, turned, mesh_report, named, rows.empty() ? start : nullptr));
  }
  return rows;
}

DirectionRow study_as_in_case(StaticSolver& solver, const JudgedModel& model, Loading& loading,
                              const MaterialField& field, const MeshReport& mesh_report,
                              const std::string& name) {
  DirectionRow row =
      study(solver, model, loading, field, mesh_report, {name, Eigen::Vector3d::Zero()}, nullptr);
  row.each_its_own = true;
  return row;
}

}  // namespace crossgrain
