// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/bench/map_reach.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <random>

#include "cases/studies/direction_map.h"
#include "materials/failure/failure.h"
#include "tools/bench/seconds.h"
#include "tools/story/prepared_case.h"

namespace crossgrain::bench {
namespace {

using nlohmann::json;

constexpr int directions_tried = 50;
constexpr double cold_tolerance = 1e-8;

class Reach {
 public:
  explicit Reach(const PreparedCase& prepared)
      : prepared_(prepared),
        mesh_(prepared.meshed.mesh),
        model_{mesh_, prepared.sites, prepared.materials, prepared.case_file.targets, 0},
        held_(constraints_of(mesh_, prepared.loading.supports)) {}

  Times cold_solve() const {
    return time_of([&] {
      StaticSolver solver(mesh_, held_, {.tolerance = cold_tolerance});
      solver.set_material(prepared_.field);
      solver.solve(load_matrix(prepared_.loading), Unbalanced::left_to_inertia);
    });
  }

  DirectionMap map(double tolerance) {
    MapOptions options;
    options.tolerance = tolerance;
    solver_.emplace(mesh_, held_, SolverOptions{.tolerance = cold_tolerance});
    return map_directions(*solver_, model_, prepared_.loading, prepared_.field, options,
                          [](int) {});
  }

  MappedFactors solved(const Eigen::Vector3d& n, const Eigen::MatrixXd* start = nullptr) {
    MaterialField turned = prepared_.field;
    for (auto& frame : turned.frames) frame = frame_along(n);
    Loading loading = prepared_.loading;
    solver_->set_material(turned);
    update_field_loads(loading, mesh_, turned);
    return judge_solution(loading,
                          solve_loads(*solver_, mesh_, turned, prepared_.sites.fit, loading, start),
                          turned, model_);
  }

 private:
  const PreparedCase& prepared_;
  const TetrahedronMesh& mesh_;
  JudgedModel model_;
  std::vector<NodeConstraint> held_;
  std::optional<StaticSolver> solver_;
};

/// How far a mode's factor was off, where it governs and where it comes near.
struct ModeErrors {
  int governs = 0;
  double governing = 0.0, near = 0.0;
};

/// Of the map, by a stated seed; none of them was solved for it.
std::vector<Eigen::Index> random_directions(const DirectionMap& map) {
  std::mt19937 engine(6);  // whose output the standard fixes, as it does not that of distributions
  std::vector<Eigen::Index> chosen;
  while (std::ssize(chosen) < directions_tried) {
    const auto d = static_cast<Eigen::Index>(engine() % map.factors.size());
    if (!map.tried[d] && std::ranges::find(chosen, d) == chosen.end()) chosen.push_back(d);
  }
  return chosen;
}

using Factors = std::map<FailureMode, std::optional<double>>;

void take_in(const Factors& mapped, const Factors& solved, const MappedFactors& overall,
             std::map<std::string, ModeErrors>& errors, const std::string& loads) {
  constexpr double reach = 1.5;  // of the worst factor: such modes count as able to govern
  for (const auto& [mode, factor] : solved) {
    if (!factor || !overall.worst()) continue;
    const auto guess = mapped.at(mode);
    const double off = guess ? std::abs(*guess / *factor - 1.0) : 1.0;
    ModeErrors& of_mode = errors[std::string(name_of(mode)) + loads];
    if (*factor <= *overall.worst()) {
      ++of_mode.governs;
      of_mode.governing = std::max(of_mode.governing, off);
    }
    if (*factor <= reach * *overall.worst()) of_mode.near = std::max(of_mode.near, off);
  }
}

/// Solve directions that the map was not built from.
void print_true_errors(Reach& reach, const DirectionMap& map,
                       const std::function<void(const json&)>& print) {
  std::map<std::string, ModeErrors> errors;
  std::vector<double> off, share_of_said;
  for (const Eigen::Index d : random_directions(map)) {
    const MappedFactors& mapped = map.factors[d];
    const MappedFactors solved = reach.solved(map.directions.col(d));
    take_in(mapped.on_all_loads, solved.on_all_loads, solved, errors, ", all loads");
    take_in(mapped.on_scaling_loads, solved.on_scaling_loads, solved, errors, ", pressure alone");
    off.push_back(greatest_difference(mapped, solved, 1.0));
    share_of_said.push_back(off.back() / map.errors[d]);
  }
  for (const auto& [mode, of_mode] : errors)
    print({{"mode", mode},
           {"governs_of_50", of_mode.governs},
           {"error_where_it_governs", of_mode.governing},
           {"error_within_1.5_of_the_worst_factor", of_mode.near}});
  std::ranges::sort(off);
  print({{"governing_factor_off_in_the_middle", off[off.size() / 2]},
         {"governing_factor_off_at_most", off.back()},
         {"within_what_is_said_of_50",
          std::ranges::count_if(share_of_said, [](double share) { return share <= 1.0; })},
         {"share_of_what_is_said_at_most", *std::ranges::max_element(share_of_said)}});
}

}  // namespace

void measure_map(const std::filesystem::path& case_file, double tolerance,
                 const std::function<void(const json&)>& print) {
  ProgressLine progress(true);
  const PreparedCase prepared = prepare_case(case_file, progress);
  Reach reach(prepared);
  reach.cold_solve();  // memory that nobody has touched yet costs more
  const Times before = reach.cold_solve();
  std::optional<DirectionMap> map;
  const Times mapping = time_of([&] { map = reach.map(tolerance); });
  const Times confirming = time_of([&] {
    reach.solved(map->refined, &map->start_of_best);
    reach.solved(map->directions.col(map->worst), &map->start_of_worst);
  });
  const Times after = reach.cold_solve();
  const double wall = std::min(before.wall, after.wall),
               processor = std::min(before.processor, after.processor);
  print({{"unknowns", prepared.meshed.mesh.unknowns()},
         {"loads", prepared.loading.loads.size()},
         {"tolerance", tolerance},
         {"cold_solve_seconds", {before.wall, after.wall}},
         {"cold_solve_processor_seconds", {before.processor, after.processor}},
         {"directions_solved", map->solved},
         {"map_in_cold_solves", mapping.wall / wall},
         {"confirming_in_cold_solves", confirming.wall / wall},
         {"map_in_cold_solves_by_processor", mapping.processor / processor},
         {"confirming_in_cold_solves_by_processor", confirming.processor / processor},
         {"error_said", map->error},
         {"within_tolerance", map->within_tolerance}});
  print_true_errors(reach, *map, print);
}

}  // namespace crossgrain::bench
