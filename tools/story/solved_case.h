// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "cases/judgement/judged_cases.h"
#include "tools/story/prepared_case.h"
#include "tools/story/stopwatch.h"

namespace crossgrain {

/// A prepared case solved and judged on its mesh with the nominal constants, and how far the mesh
/// may be off.
struct SolvedCase {
  SolvedCase(const PreparedCase& prepared, int threads)
      : model{prepared.meshed.mesh, prepared.sites, prepared.materials, prepared.case_file.targets,
              threads},
        solver(prepared.meshed.mesh,
               constraints_of(prepared.meshed.mesh, prepared.loading.supports),
               options_of(prepared.case_file, threads)) {}

  static SolverOptions options_of(const CaseFile& case_file, int threads) {
    SolverOptions options = case_file.solve;
    options.threads = threads;
    return options;
  }

  JudgedModel model;
  StaticSolver solver;
  ElementarySolution solution = {};
  Eigen::VectorXd factor_shares = {};  ///< of MeshErrorEstimate
  Eigen::VectorXd counted = {};        ///< of MeshErrorEstimate; empty if nothing governs
  std::map<EdgeId, RawAtEdge> raw_at_edges = {};
};

/// Solve and judge; what was found goes into `result`: cases, worst factors, governing place, mesh
/// error.
/// @param prepared  must stay where it is for the life of what is returned.
/// @param balls  in which its mesh was made fine.
/// @param start  unknowns x loads [mm], where iterations begin; may be null.
/// @throws std::invalid_argument if a part that nothing holds has loads out of balance;
/// Interrupted.
std::unique_ptr<SolvedCase> solve_case(PreparedCase& prepared, const std::vector<SizeBall>& balls,
                                       const Eigen::MatrixXd* start, int threads,
                                       ProgressLine& progress, Stopwatch& stopwatch,
                                       RunResult& result);

}  // namespace crossgrain
