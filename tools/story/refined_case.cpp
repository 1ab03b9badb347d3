// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/story/refined_case.h"

#include <spdlog/spdlog.h>

#include <chrono>

#include "cases/studies/finer_mesh.h"
#include "cases/studies/growing_edges.h"
#include "solver/location/carried_displacement.h"

namespace crossgrain {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

void note_pass(const PreparedCase& prepared, const SolvedCase& solved,
               const std::string& case_before, double seconds, RunResult& result) {
  MeshPass pass{};
  pass.unknowns = prepared.meshed.mesh.unknowns();
  pass.governing = result.governing;
  pass.error = result.mesh_error;
  pass.place = result.governing_place;
  pass.seconds = seconds;
  pass.raw_at_edges = solved.raw_at_edges;
  // Of another load case stress is not to be compared.
  if (!result.mesh_passes.empty() && result.governing_case != case_before)
    for (MeshPass& earlier : result.mesh_passes) earlier.raw_at_edges.clear();
  result.mesh_passes.push_back(pass);
  result.growing_edges = growing_edges(result.mesh_passes);
  if (pass.error)
    spdlog::info("mesh {}: {} unknowns, factor {:.4g}, off by {:.2g} or less, as estimated",
                 result.mesh_passes.size(), pass.unknowns, *pass.governing->factor.value,
                 pass.error->factor);
}

/// The case on a finer mesh. A part that cannot be meshed so keeps the mesh it has.
bool mesh_again(PreparedCase& prepared, const MeshOptions& options, ProgressLine& progress,
                RunResult& result) {
  try {
    prepared = on_a_mesh(prepared.case_file, prepared.parted, options, prepared.seconds, progress);
    return true;
  } catch (const std::invalid_argument& refusal) {
    result.refining_ended = "a finer mesh was not to be had";
    spdlog::warn("{}: {}", result.refining_ended, refusal.what());
    return false;
  }
}

}  // namespace

std::unique_ptr<SolvedCase> refine_case(PreparedCase& prepared, int threads, ProgressLine& progress,
                                        Stopwatch& stopwatch, RunResult& result) {
  const auto begun = Clock::now();
  const double first_mesh = prepared.seconds["import and mesh"];
  MeshOptions options = prepared.case_file.mesh;
  auto solved = solve_case(prepared, options.balls, nullptr, threads, progress, stopwatch, result);
  note_pass(prepared, *solved, "", first_mesh + seconds_since(begun), result);
  for (;;) {
    const auto pass_start = Clock::now();
    const NextMesh next = next_mesh({result, solved->model, solved->factor_shares, options},
                                    prepared.case_file.refining, first_mesh + seconds_since(begun));
    result.refining_ended = next.reason;
    if (!next.options) break;
    const TetrahedronMesh old_mesh = prepared.meshed.mesh;
    const Eigen::MatrixXd displacement = solved->solution.displacement;
    if (!mesh_again(prepared, *next.options, progress, result)) break;
    stopwatch.skip();  // the mesh's seconds are noted with the case
    options = *next.options;
    solved.reset();
    const std::string case_before = result.governing_case;
    const Eigen::MatrixXd start =
        carried_displacement(old_mesh, displacement, prepared.meshed.mesh, threads);
    solved = solve_case(prepared, options.balls, &start, threads, progress, stopwatch, result);
    note_pass(prepared, *solved, case_before, seconds_since(pass_start), result);
  }
  result.extrapolated_factor = extrapolated(result.mesh_passes);
  return solved;
}

}  // namespace crossgrain
