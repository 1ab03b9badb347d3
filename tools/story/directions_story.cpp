// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/story/directions_story.h"

#include <algorithm>

#include "cases/studies/direction_study.h"
#include "cases/studies/printability.h"
#include "solver/static_solver.h"
#include "tools/story/cavity.h"
#include "tools/terminal/interrupt.h"

namespace crossgrain {
namespace {

std::vector<BodyId> modelled_bodies(const Geometry& geometry) {
  std::vector<BodyId> bodies;
  for (const Body& body : geometry.bodies) {
    if (body.modelled) bodies.push_back(body.id);
  }
  return bodies;
}

/// The named directions, after the case's own unless it is among them.
std::vector<NamedDirection> directions_to_try(const CaseFile& case_file) {
  const Eigen::Vector3d own = case_file.bodies.front().print_direction;
  std::vector<NamedDirection> directions = case_file.directions.named;
  const bool named = std::any_of(directions.begin(), directions.end(), [&](const auto& other) {
    return other.direction.isApprox(own, 1e-9);
  });
  if (!named) directions.insert(directions.begin(), {"as in the case", own});
  return directions;
}

}  // namespace

std::vector<DirectionRow> directions_story(PreparedCase& prepared, int threads,
                                           ProgressLine& progress) {
  const CaseFile& case_file = prepared.case_file;
  const std::vector<NamedDirection> directions = directions_to_try(case_file);
  const TetrahedronMesh& mesh = prepared.meshed.mesh;
  const JudgedModel model{mesh, prepared.sites, prepared.materials, case_file.targets, threads};
  SolverOptions options = case_file.solve;
  options.threads = threads;
  StaticSolver solver(mesh, constraints_of(mesh, prepared.loading.supports), options);
  std::vector<DirectionRow> rows;
  for (std::size_t i = 0; i < directions.size(); ++i) {
    progress.show("solving direction " + directions[i].name,
                  static_cast<double>(i) / directions.size());
    const auto row = study_directions(solver, model, prepared.loading, prepared.field,
                                      prepared.meshed.report, {directions[i]});
    rows.insert(rows.end(), row.begin(), row.end());
    stop_if_interrupted();
  }
  const Geometry& geometry = prepared.meshed.geometry;
  const std::vector<FaceId> inside = cavity_faces(prepared);
  for (DirectionRow& row : rows) {
    add_printability(row, geometry, modelled_bodies(geometry), case_file.directions.overhang_angle,
                     inside);
  }
  return rows;
}

}  // namespace crossgrain
