// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/story/run_story.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "cases/case_file/case_sources.h"
#include "cases/judgement/balance.h"
#include "cases/judgement/body_balance.h"
#include "cases/judgement/cautions.h"
#include "cases/judgement/confirmed_effects.h"
#include "cases/judgement/constant_effects.h"
#include "cases/judgement/factor_range.h"
#include "cases/judgement/followed_factor.h"
#include "cases/judgement/joint_judgement.h"
#include "cases/judgement/judged_cases.h"
#include "cases/judgement/meeting_faces.h"
#include "cases/judgement/mode_errors.h"
#include "cases/judgement/probes.h"
#include "cases/judgement/verdict.h"
#include "tools/story/refined_case.h"
#include "tools/story/second_opinions.h"
#include "tools/story/stopwatch.h"
#include "tools/terminal/interrupt.h"

namespace crossgrain {
namespace {

/// What the result repeats of the case: names, materials, directions of the solids that were
/// modelled.
void describe_bodies(const PreparedCase& prepared, RunResult& result) {
  const Geometry& geometry = prepared.meshed.geometry;
  const auto specs = spec_of_body(prepared.case_file, geometry);
  const std::vector<double> masses = body_masses(prepared.meshed.mesh, prepared.field);
  for (const Body& body : geometry.bodies) {
    if (!body.modelled) continue;
    const std::size_t i = index(body.id);
    result.body_names.push_back(body.name);
    result.materials.push_back(prepared.materials.service[i]);
    result.print_directions.push_back(specs[i]->print_direction);
    result.body_mass_g.push_back(1e6 * (i < masses.size() ? masses[i] : 0.0));
  }
}

void describe_case(const PreparedCase& prepared, RunResult& result) {
  const CaseFile& case_file = prepared.case_file;
  result.title = case_file.title;
  result.case_file = case_file.file.string();
  result.program_version = CROSSGRAIN_VERSION;
  result.targets = case_file.targets;
  result.cautions = usual_cautions(case_file.conditions);
  result.notes = prepared.loading.notes;
  result.warnings = prepared.meshed.geometry.warnings;
  result.thrusts = prepared.loading.thrusts;
  result.mesh_report = prepared.meshed.report;
  if (prepared.loading.leading_pressure)
    result.working_pressure_MPa = prepared.loading.working_pressure_MPa;
  describe_bodies(prepared, result);
}

void read_out_cases(const PreparedCase& prepared, const ElementarySolution& solution,
                    const StaticSolver& solver, RunResult& result) {
  const TetrahedronMesh& mesh = prepared.meshed.mesh;
  for (const LoadCase& load_case : prepared.loading.cases) {
    const CombinedCase combined = combine(load_case, prepared.loading, solution);
    const auto reactions = support_reactions(mesh, prepared.loading.supports, combined, solver,
                                             case_title(load_case.name, load_case.bound));
    const auto probes = read_probes(prepared.case_file, prepared.meshed.geometry, prepared.features,
                                    mesh, prepared.sites, load_case, combined);
    result.reactions.insert(result.reactions.end(), reactions.begin(), reactions.end());
    result.probes.insert(result.probes.end(), probes.begin(), probes.end());
  }
}

void judge_joint_of(const PreparedCase& prepared, const ElementarySolution& solution,
                    RunResult& result) {
  std::vector<Eigen::Vector3d> print_directions;
  for (const BodySpec* spec : spec_of_body(prepared.case_file, prepared.meshed.geometry))
    print_directions.push_back(spec->print_direction);
  result.joint = judge_states(prepared.case_file, prepared.loading, solution, prepared.materials,
                              print_directions, prepared.meshed.mesh);
  for (std::size_t i = 0; i < result.cases.size(); ++i)
    result.cases[i].meetings =
        meeting_faces(prepared.loading.cases[i], *prepared.loading.joined, solution);
  std::ranges::move(flooded_contacts(prepared.case_file.contacts, result.cases),
                    std::back_inserter(result.warnings));
}

}  // namespace

RunResult run_story(PreparedCase& prepared, int threads, ProgressLine& progress) {
  Stopwatch stopwatch;
  RunResult result;
  const auto solved = refine_case(prepared, threads, progress, stopwatch, result);
  describe_case(prepared, result);
  read_out_cases(prepared, solved->solution, solved->solver, result);
  if (prepared.loading.joined) judge_joint_of(prepared, solved->solution, result);
  result.balance = check_balance(prepared.meshed.mesh, prepared.loading, solved->solution,
                                 solved->solver, prepared.meshed.report);
  result.balance.bodies = balance_bodies(prepared.meshed.geometry, prepared.meshed.mesh,
                                         prepared.field, prepared.materials.service);
  stopwatch.lap("judge");
  stop_if_interrupted();

  progress.show("errors of the other factors");
  add_mode_errors(result, prepared.meshed.geometry, solved->model, prepared.loading,
                  solved->solution, prepared.field);
  stopwatch.lap("mesh error");
  stop_if_interrupted();

  progress.show("following the joint to its limit");
  const auto followed = follow_factors(result.cases, solved->solver, solved->model,
                                       prepared.loading, prepared.field, solved->solution);
  stopwatch.lap("joint at its limit");
  stop_if_interrupted();

  progress.show("ranges of estimated constants");
  result.constant_effects =
      constant_effects(result, solved->model, prepared.loading, solved->solution, prepared.field,
                       solved->counted, solved->solver);
  confirm_effects(result.constant_effects, result, solved->solver, solved->model, prepared.loading,
                  prepared.field, solved->solution);
  stop_if_interrupted();
  add_ranges(result.cases, solved->solver, solved->model, prepared.loading, prepared.field,
             solved->solution, stiffness_ends(result.constant_effects, prepared.materials));
  const FactorRange straight_line = worse_of(result.factor, result.pressure_factor);
  for (const FollowedFactor& factor : followed) take_in(factor, result.cases[factor.load_case]);
  find_worst(result);
  follow(result.constant_effects, straight_line.value,
         worse_of(result.factor, result.pressure_factor).value);
  stopwatch.lap("ranges");
  stop_if_interrupted();

  progress.show("second opinions");
  add_second_opinions(prepared, solved->model, solved->solver, solved->solution, result);
  stopwatch.lap("second opinions");

  conclude(result, prepared.case_file.mesh.layers);
  result.seconds = prepared.seconds;
  result.seconds.insert(stopwatch.laps().begin(), stopwatch.laps().end());
  return result;
}

}  // namespace crossgrain
