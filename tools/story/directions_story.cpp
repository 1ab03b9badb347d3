// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/story/directions_story.h"

#include <algorithm>

#include "cases/loads/joint_states.h"
#include "cases/studies/direction_study.h"
#include "cases/studies/joint_changes.h"
#include "cases/studies/printability.h"
#include "solver/static_solver.h"
#include "tools/story/cavity.h"
#include "tools/terminal/interrupt.h"

namespace crossgrain {
namespace {

constexpr const char* own_of_case = "as in the case";

/// The bodies that are printed, standing as the case has them.
std::vector<BodyDirection> standing_as_in_case(const std::vector<Print>& prints) {
  std::vector<BodyDirection> standing;
  for (const Print& print : prints)
    for (const BodyId body : print.bodies) standing.push_back({body, print.build});
  return standing;
}

bool same(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
  return a.normalized().isApprox(b.normalized(), 1e-9);
}

class Story {
 public:
  Story(PreparedCase& prepared, int threads, ProgressLine& progress)
      : prepared_(prepared),
        mesh_(prepared.meshed.mesh),
        model_{mesh_, prepared.sites, prepared.materials, prepared.case_file.targets, threads},
        progress_(progress),
        prints_(prints_of(mesh_, prepared.field, prepared.sites.body_names)) {
    story_.cavity = cavity_faces(prepared);
  }

  DirectionStory of_names() {
    StaticSolver solver = new_solver();
    std::vector<NamedDirection> directions = prepared_.case_file.directions.named;
    const Eigen::Vector3d own = prints_.front().build;
    const bool shared =
        std::ranges::all_of(prints_, [&](const Print& print) { return same(print.build, own); });
    const bool named = std::ranges::any_of(
        directions, [&](const NamedDirection& other) { return same(other.direction, own); });
    if (!shared || !named) story_.rows.push_back(study_case(solver).row);
    for (const NamedDirection& direction : directions) {
      progress_.show("solving direction " + direction.name,
                     static_cast<double>(story_.rows.size()) / (directions.size() + 1.0));
      const auto row = study_directions(solver, model_, prepared_.loading, prepared_.field,
                                        prepared_.meshed, {direction});
      story_.rows.push_back(row.front());
      stop_if_interrupted();
    }
    return finished();
  }

  DirectionStory of_maps() {
    if (prepared_.loading.joined) {
      StaticSolver solver = new_solver();
      as_is_ = study_case(solver);
    }
    add_maps();
    // For full solutions what the maps' solver was made ready for is too coarse.
    StaticSolver solver = new_solver();
    if (!as_is_) as_is_ = study_case(solver);
    story_.rows.push_back(as_is_->row);
    for (MappedPrint& mapped : story_.maps)
      hold_against(mapped, own_of_case, mapped.print.build, true,
                   judge_solution_of(mapped.print.bodies, prepared_.loading, as_is_->solution,
                                     prepared_.field, model_));
    for (std::size_t p = 0; p < story_.maps.size(); ++p) {
      const DirectionMap& map = story_.maps[p].map;
      solve(solver, name("best", p), {{p, best_of(p)}}, map.start_of_best);
      solve(solver, name("worst", p), {{p, story_.maps[p].trade_offs[map.worst].up}},
            map.start_of_worst);
    }
    if (story_.maps.size() > 1) solve_best_of_each(solver);
    return finished();
  }

 private:
  /// A print and the direction that it is given.
  struct Turned {
    std::size_t print;
    Eigen::Vector3d direction;
  };

  StaticSolver new_solver() const {
    SolverOptions options = prepared_.case_file.solve;
    options.threads = model_.threads;
    return StaticSolver(mesh_, constraints_of(mesh_, prepared_.loading.supports), options);
  }

  std::string name(const std::string& which, std::size_t print) const {
    return story_.maps.size() == 1 ? which : which + " of " + story_.maps[print].print.name;
  }

  StudiedPrinting study_case(StaticSolver& solver) {
    progress_.show("solving the case as it is printed");
    StudiedPrinting study = study_printing(solver, model_, prepared_.loading, prepared_.field,
                                           prepared_.meshed, own_of_case);
    update_field_loads(prepared_.loading, mesh_, prepared_.field);
    stop_if_interrupted();
    return study;
  }

  /// A map of every print, the others held, and what a printer asks of its directions.
  void add_maps() {
    std::optional<JointReference> reference;
    if (as_is_)
      reference.emplace(JointReference{
          as_is_->solution,
          frozen_states(mesh_, *prepared_.loading.joined, as_is_->solution.joint_states)});
    const MapOptions options;
    for (const Print& print : prints_) {
      const std::string words = prints_.size() == 1 ? "" : " of " + print.name;
      StaticSolver solver = new_solver();
      DirectionMap map =
          map_directions(solver, model_, prepared_.loading, prepared_.field, print.bodies,
                         reference ? &*reference : nullptr, options, [&](int solved) {
                           stop_if_interrupted();
                           progress_.show("solving directions for the map" + words + ", " +
                                              std::to_string(solved) + " so far",
                                          static_cast<double>(solved) / options.most);
                         });
      progress_.show("printing in every direction");
      std::vector<std::optional<double>> factors;
      for (const auto& mapped : map.factors) factors.push_back(mapped.worst());
      auto rows =
          trade_offs(map.directions, factors, prepared_.meshed.geometry, print.bodies,
                     prepared_.case_file.directions.overhang_angle, story_.cavity, model_.threads);
      story_.maps.push_back({print, std::move(map), std::move(rows), {}});
    }
  }

  /// Of it and its opposite the one with less overhang.
  Eigen::Vector3d best_of(std::size_t print) const {
    const MappedPrint& mapped = story_.maps[print];
    const Eigen::Vector3d best = mapped.map.refined;
    return best.dot(mapped.trade_offs[mapped.map.best].up) < 0.0 ? Eigen::Vector3d(-best) : best;
  }

  /// Solve some prints in other directions, the rest as in the case; hold the maps against it.
  void solve(StaticSolver& solver, const std::string& name, const std::vector<Turned>& turned,
             const Eigen::MatrixXd& start) {
    progress_.show("solving " + name);
    MaterialField field = prepared_.field;
    for (const auto& [print, direction] : turned)
      field = with_frames_along(
          field, frames_of_bodies(field, mesh_, story_.maps[print].print.bodies), direction);
    StudiedPrinting study =
        study_printing(solver, model_, prepared_.loading, field, prepared_.meshed, name, &start);
    study.row.joint_changes = joint_changes(prepared_.loading, as_is_->solution.joint_states,
                                            study.solution.joint_states);
    for (const auto& [print, direction] : turned)
      hold_against(story_.maps[print], name, direction, turned.size() == 1,
                   judge_solution_of(story_.maps[print].print.bodies, prepared_.loading,
                                     study.solution, field, model_));
    story_.rows.push_back(std::move(study.row));
    stop_if_interrupted();
  }

  void solve_best_of_each(StaticSolver& solver) {
    std::vector<Turned> all;
    // What each changes by itself, summed up.
    Eigen::MatrixXd start = as_is_->solution.displacement;
    for (std::size_t p = 0; p < story_.maps.size(); ++p) {
      all.push_back({p, best_of(p)});
      start += story_.maps[p].map.start_of_best - as_is_->solution.displacement;
    }
    solve(solver, best_of_each_print, all, start);
  }

  DirectionStory finished() {
    const double angle = prepared_.case_file.directions.overhang_angle;
    for (DirectionRow& row : story_.rows) {
      std::vector<BodyDirection> standing = row.of_bodies;
      if (standing.empty()) {
        standing = standing_as_in_case(prints_);
        for (BodyDirection& body : standing) body.build = row.direction;
      }
      add_printability(row,
                       printability(prepared_.meshed.geometry, standing, angle, story_.cavity));
    }
    return std::move(story_);
  }

  PreparedCase& prepared_;
  const TetrahedronMesh& mesh_;
  JudgedModel model_;
  ProgressLine& progress_;
  std::vector<Print> prints_;
  std::optional<StudiedPrinting> as_is_;
  DirectionStory story_;
};

}  // namespace

DirectionStory directions_story(PreparedCase& prepared, int threads, ProgressLine& progress) {
  Story story(prepared, threads, progress);
  return prepared.case_file.directions.named.empty() ? story.of_maps() : story.of_names();
}

}  // namespace crossgrain
