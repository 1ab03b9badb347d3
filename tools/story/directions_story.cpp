// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/story/directions_story.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "cases/case_file/case_sources.h"
#include "cases/studies/direction_study.h"
#include "cases/studies/printability.h"
#include "solver/static_solver.h"
#include "tools/story/cavity.h"
#include "tools/terminal/interrupt.h"

namespace crossgrain {
namespace {

constexpr const char* best_of_map = "best";
constexpr const char* worst_of_map = "worst";
constexpr const char* own_of_case = "as in the case";

std::vector<BodyId> modelled_bodies(const Geometry& geometry) {
  std::vector<BodyId> bodies;
  for (const Body& body : geometry.bodies) {
    if (body.modelled) bodies.push_back(body.id);
  }
  return bodies;
}

bool same(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
  return a.normalized().isApprox(b.normalized(), 1e-9);
}

bool have_one_direction(const std::vector<BodySpec>& bodies) {
  return std::ranges::all_of(bodies, [&](const BodySpec& body) {
    return same(body.print_direction, bodies.front().print_direction);
  });
}

/// Those of the case, each of its bodies with its own direction.
std::vector<StandingBody> standing_as_in_case(const PreparedCase& prepared) {
  const Geometry& geometry = prepared.meshed.geometry;
  const auto specs = spec_of_body(prepared.case_file, geometry);
  std::vector<StandingBody> standing;
  for (const BodyId body : modelled_bodies(geometry))
    standing.push_back({body, specs[index(body)]->print_direction});
  return standing;
}

/// The named directions, after the case's own, if its bodies share one, unless it is among them.
std::vector<NamedDirection> directions_to_try(const CaseFile& case_file) {
  std::vector<NamedDirection> directions = case_file.directions.named;
  if (!have_one_direction(case_file.bodies)) return directions;
  const Eigen::Vector3d own = case_file.bodies.front().print_direction;
  const bool named = std::any_of(directions.begin(), directions.end(),
                                 [&](const auto& other) { return same(other.direction, own); });
  if (!named) directions.insert(directions.begin(), {own_of_case, own});
  return directions;
}

/// The map, and what a printer asks of its directions.
/// @param directions  the best and the worst are appended.
void add_map(DirectionStory& story, StaticSolver& solver, const JudgedModel& model,
             const PreparedCase& prepared, ProgressLine& progress,
             std::vector<NamedDirection>& directions) {
  const std::vector<BodyId> bodies = modelled_bodies(prepared.meshed.geometry);
  if (bodies.size() > 1)
    throw std::invalid_argument(prepared.case_file.file.string() +
                                ": [directions]: several bodies have no map of print directions; "
                                "name the directions to compare with named = { ... }");
  const MapOptions options;
  story.map =
      map_directions(solver, model, prepared.loading, prepared.field, options, [&](int solved) {
        stop_if_interrupted();
        progress.show("solving directions for the map, " + std::to_string(solved) + " so far",
                      static_cast<double>(solved) / options.most);
      });
  progress.show("printing in every direction");
  std::vector<std::optional<double>> factors;
  for (const auto& mapped : story.map->factors) factors.push_back(mapped.worst());
  story.trade_offs =
      trade_offs(story.map->directions, factors, prepared.meshed.geometry, bodies,
                 prepared.case_file.directions.overhang_angle, story.cavity, model.threads);
  const Eigen::Vector3d best = story.map->refined;
  const bool other_way = best.dot(story.trade_offs[story.map->best].up) < 0.0;
  directions.push_back({best_of_map, other_way ? Eigen::Vector3d(-best) : best});
  directions.push_back({worst_of_map, story.trade_offs[story.map->worst].up});
}

/// The map's direction that a row is solved for, or its opposite, which is as strong; none if it
/// lies between them.
std::optional<std::size_t> on_the_map(const DirectionMap& map, const Eigen::Vector3d& direction) {
  constexpr double same = 1.0 - 1e-12;
  for (Eigen::Index i = 0; i < map.directions.cols(); ++i)
    if (std::abs(map.directions.col(i).dot(direction.normalized())) > same)
      return static_cast<std::size_t>(i);
  return std::nullopt;
}

/// Where the full solution of one of the map's extremes may begin; null: from nothing.
const Eigen::MatrixXd* start_of(const std::optional<DirectionMap>& map, const std::string& name) {
  if (!map || (name != best_of_map && name != worst_of_map)) return nullptr;
  return name == best_of_map ? &map->start_of_best : &map->start_of_worst;
}

/// The map's errors are no less than what solving its extremes, and the case's own direction, fully
/// shows of them.
void confirm(DirectionMap& map, const std::vector<DirectionRow>& rows) {
  for (const DirectionRow& row : rows) {
    const bool best = row.name == best_of_map;
    const auto place = on_the_map(map, row.direction);
    if (!best && !place) continue;
    const auto mapped = best ? map.refined_factor : map.factors[*place].worst();
    const double off = relative_difference(mapped, row.factor.value);
    map.error = std::max(map.error, off);
    const double said = map.errors[best ? map.best : static_cast<Eigen::Index>(*place)];
    if (!(off > said)) continue;
    // What was said was too little here, and so may be elsewhere.
    for (double& error : map.errors) error = said > 0.0 ? std::min(1.0, error * off / said) : off;
  }
  map.within_tolerance = map.within_tolerance && map.error <= MapOptions{}.tolerance;
}

}  // namespace

DirectionStory directions_story(PreparedCase& prepared, int threads, ProgressLine& progress) {
  const CaseFile& case_file = prepared.case_file;
  std::vector<NamedDirection> directions = directions_to_try(case_file);
  const TetrahedronMesh& mesh = prepared.meshed.mesh;
  const JudgedModel model{mesh, prepared.sites, prepared.materials, case_file.targets, threads};
  SolverOptions options = case_file.solve;
  options.threads = threads;
  StaticSolver solver(mesh, constraints_of(mesh, prepared.loading.supports), options);
  DirectionStory story;
  story.cavity = cavity_faces(prepared);
  if (case_file.directions.named.empty())
    add_map(story, solver, model, prepared, progress, directions);
  if (!have_one_direction(case_file.bodies)) {
    progress.show("solving every body's own direction");
    story.rows.push_back(study_as_in_case(solver, model, prepared.loading, prepared.field,
                                          prepared.meshed.report, own_of_case));
    stop_if_interrupted();
  }
  for (std::size_t i = 0; i < directions.size(); ++i) {
    progress.show("solving direction " + directions[i].name,
                  static_cast<double>(i) / directions.size());
    const auto row =
        study_directions(solver, model, prepared.loading, prepared.field, prepared.meshed.report,
                         {directions[i]}, start_of(story.map, directions[i].name));
    story.rows.insert(story.rows.end(), row.begin(), row.end());
    stop_if_interrupted();
  }
  if (story.map) confirm(*story.map, story.rows);
  const Geometry& geometry = prepared.meshed.geometry;
  const double angle = case_file.directions.overhang_angle;
  for (DirectionRow& row : story.rows)
    add_printability(row, row.each_its_own ? printability(geometry, standing_as_in_case(prepared),
                                                          angle, story.cavity)
                                           : printability(geometry, modelled_bodies(geometry),
                                                          row.direction, angle, story.cavity));
  return story;
}

}  // namespace crossgrain
