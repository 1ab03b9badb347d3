// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/direction_map.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <numeric>

#include "cases/judgement/factor_range.h"
#include "cases/studies/map_error.h"
#include "solver/directions/energy_bound.h"
#include "solver/directions/half_sphere.h"
#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

using Eigen::Index;

// Residuals of solutions that the answer is sought among: what one lacks lies mostly in the span of
// the others. On the filter bowl true errors are the same from 1e-4 to 1e-2.
constexpr double share_of_tolerance = 1.0, finest_snapshot = 1e-6, coarsest_snapshot = 1e-2;
// Modes within this many times the worst factor count as able to govern.
constexpr double reach = 1.5;
// Sites whose multiplier exceeds the least by more, in every direction that was solved, are left
// out. What that could hide shows in the directions tried: they are judged at all sites.
constexpr KeptSites kept_sites{reach, 1.5, 1.1};
// The same for what single load cases are told by in the end.
constexpr double kept_of_each_case = 1.1;
// Of the solutions, left out in turn to see how much the map hangs on them.
constexpr std::size_t parts_left_out = 5;
// While it is only asked what to solve next, one direction in so many is looked at.
constexpr Index coarse_step = 4;

/// Near enough to every direction for the corners' factor to stay.
MaterialField near_every_direction(const MaterialField& field, const std::vector<int>& turning) {
  MaterialField near = isotropic_field(field).field;
  std::vector<char> turns(field.materials.size(), 0);
  for (std::size_t t = 0; t < field.material_of_tetrahedron.size(); ++t)
    if (std::ranges::find(turning, field.frame_of_point(static_cast<Index>(t), 0)) != turning.end())
      turns[field.material_of_tetrahedron[t]] = 1;
  for (std::size_t m = 0; m < turns.size(); ++m)
    if (!turns[m]) near.materials[m] = field.materials[m];
  return near;
}

class Mapper {
 public:
  Mapper(StaticSolver& solver, const JudgedModel& model, const Loading& loading,
         const MaterialField& field, const std::vector<BodyId>& bodies,
         const JointReference* reference, const MapOptions& options,
         const std::function<void(int)>& solving)
      : solver_(solver),
        loading_(loading),
        options_(options),
        solving_(solving),
        loads_(model, loading, field, bodies, reference),
        answer_(model, loading, field, loads_, sites_of(model.sites, bodies)),
        model_{model.mesh, answer_.everywhere().sites, model.materials, model.targets,
               model.threads},
        error_(map_.directions),
        may_govern_(model_.sites.points.size(), 0),
        in_some_case_(may_govern_) {
    // Parts stand flat along their axes, which the spread does not meet.
    map_.directions.resize(3, options.directions + 3);
    map_.directions << half_sphere(options.directions), Eigen::Matrix3d::Identity();
    map_.factors.resize(map_.directions.cols());
    for (const LoadCase& load_case : loading.cases)
      map_.load_cases.push_back(case_title(load_case.name, load_case.bound));
    map_.tried.resize(map_.directions.cols());
    map_.tolerance = options.tolerance;
    if (reference) solver_.set_additions(loads_.additions(0));
    solver_.set_material(near_every_direction(field, loads_.turning_frames()));
    if (!reference) return;
    map_.solved = 1;
    take_in(field.frames[loads_.turning_frames().front()].col(2),
            {reference->solution.displacement});
  }

  DirectionMap map() {
    const Eigen::Matrix3Xd first = half_sphere(options_.first);
    for (Index i = 0; i < first.cols(); i += options_.tried)
      solve(first.middleCols(i, std::min<Index>(options_.tried, first.cols() - i)));
    look(coarse_step);
    do {
      try_some();
      look(coarse_step);
    } while (map_.error > options_.tolerance && map_.solved < options_.most);
    for (std::size_t i = 0; i < may_govern_.size(); ++i) may_govern_[i] |= in_some_case_[i];
    look(1, JudgedCases::every);
    map_.within_tolerance = map_.error <= options_.tolerance;
    for (const Index d : looked_at_) map_.errors.push_back(error_.error(d));
    refine();
    map_.start_of_best = answer_.displacement(map_.refined);
    map_.start_of_worst = answer_.displacement(map_.directions.col(map_.worst));
    return std::move(map_);
  }

 private:
  /// Solve some directions, each from what the answer for it was before any of them.
  /// @return of each, judged at all sites.
  std::vector<MappedFactors> solve(const Eigen::Matrix3Xd& directions) {
    std::vector<Eigen::MatrixXd> displacements;
    const double tolerance =
        std::clamp(share_of_tolerance * options_.tolerance, finest_snapshot, coarsest_snapshot);
    for (const Eigen::Vector3d n : directions.colwise()) {
      solving_(map_.solved++);
      displacements.push_back(loads_.solve(solver_, n, answer_.displacement(n), tolerance));
    }
    return take_in(directions, displacements);
  }

  /// @return of each, judged at all sites.
  std::vector<MappedFactors> take_in(const Eigen::Matrix3Xd& directions,
                                     const std::vector<Eigen::MatrixXd>& displacements) {
    answer_.widen(directions, displacements);
    std::vector<MappedFactors> factors;
    for (const Eigen::Vector3d n : directions.colwise()) {
      solved_.push_back(n);
      const auto stress = answer_.stress(n, answer_.everywhere());
      factors.push_back(judge_direction(loading_.cases, stress, model_.sites, model_,
                                        model_.threads, JudgedCases::every));
      const auto near_here =
          sites_near_the_worst(loading_.cases, stress, factors.back(), kept_sites, model_);
      const auto near_in_case =
          sites_near_each_case(loading_.cases, stress, factors.back(), kept_of_each_case, model_);
      for (std::size_t i = 0; i < may_govern_.size(); ++i) {
        may_govern_[i] |= near_here[i];
        in_some_case_[i] |= near_in_case[i];
      }
    }
    return factors;
  }

  /// Solve directions that the map may have wrong, and hold it against them.
  void try_some() {
    const std::vector<Index> chosen = next();
    const auto found = solve(map_.directions(Eigen::all, chosen));
    map_.error = 0.0;
    for (std::size_t i = 0; i < chosen.size(); ++i) {
      const double off = greatest_difference(map_.factors[chosen[i]], found[i], reach);
      map_.error = std::max(map_.error, off);
      map_.tried[chosen[i]] = 1;
      error_.hold_against(off);
    }
  }

  /// The map of what has been taken in.
  /// @param step  one direction in so many, the axes always.
  void look(Index step, JudgedCases which = JudgedCases::for_service) {
    std::vector<Index> kept;
    for (Index i = 0; i < std::ssize(may_govern_); ++i)
      if (may_govern_[i]) kept.push_back(i);
    few_ = felt_at(answer_.everywhere(), kept);
    looked_at_.clear();
    for (Index d = 0; d < map_.directions.cols(); ++d)
      if (d % step == 0 || d >= options_.directions) looked_at_.push_back(d);

    const auto parts = parts_of_answer();
    std::vector<double> changes(looked_at_.size());
    in_parallel(std::ssize(looked_at_), model_.threads, [&](Index begin, Index end) {
      for (auto i = begin; i < end; ++i) {
        const Eigen::Vector3d n = map_.directions.col(looked_at_[i]);
        map_.factors[looked_at_[i]] = at(n, which);
        changes[i] = change_without_parts(n, map_.factors[looked_at_[i]], parts);
      }
    });
    error_.set_changes(looked_at_, changes);
    map_.best = map_.worst = looked_at_.front();
    for (const Index d : looked_at_) {
      if (is_less(map_.factors[d].worst(), map_.factors[map_.worst].worst())) map_.worst = d;
      if (is_less(map_.factors[map_.best].worst(), map_.factors[d].worst())) map_.best = d;
    }
  }

  std::vector<DirectionalAnswer::Part> parts_of_answer() const {
    std::vector<DirectionalAnswer::Part> parts;
    for (std::size_t first = 0; first < parts_left_out; ++first) {
      std::vector<char> left_out(solved_.size(), 0);
      for (std::size_t i = first; i < left_out.size(); i += parts_left_out) left_out[i] = 1;
      parts.push_back(answer_.without(left_out));
    }
    return parts;
  }

  MappedFactors at(const Eigen::Vector3d& n, JudgedCases which = JudgedCases::for_service) const {
    return judge_direction(loading_.cases, answer_.stress(n, few_), few_.sites, model_, 1, which);
  }

  /// The greatest change of a factor, at the place where it was found.
  double change_without_parts(const Eigen::Vector3d& n, const MappedFactors& factors,
                              const std::vector<DirectionalAnswer::Part>& parts) const {
    std::vector<Index> sites;
    for (const WorstPlace& place : factors.places) sites.push_back(place.site);
    const BeadStrain there = felt_at(few_, sites);
    double greatest = 0.0;
    for (const auto& part : parts)
      greatest = std::max(
          greatest, greatest_difference(factors, reach, loading_.cases,
                                        answer_.stress(n, there, &part), there.sites, model_));
    return greatest;
  }

  /// The worst, the best, where the map is least sure, and the farthest from all that were solved.
  std::vector<Index> next() const {
    std::vector<Index> chosen;
    std::vector<double>
        nearest;  // that was solved or chosen, of those looked at: sine of the angle
    for (const Index d : looked_at_) nearest.push_back(distance(d));
    const auto farthest = [&] {
      return looked_at_[std::ranges::max_element(nearest) - nearest.begin()];
    };
    const Index wanted =
        std::min<Index>({options_.tried, options_.most - map_.solved, std::ssize(looked_at_)});
    const auto choose = [&](Index d) {
      if (std::ssize(chosen) >= wanted || std::ranges::find(chosen, d) != chosen.end()) return;
      chosen.push_back(d);
      for (std::size_t i = 0; i < nearest.size(); ++i)
        nearest[i] = std::min(
            nearest[i], map_.directions.col(looked_at_[i]).cross(map_.directions.col(d)).norm());
    };
    choose(distance(map_.worst) > near ? map_.worst : farthest());
    choose(distance(map_.best) > near ? map_.best : farthest());
    choose(*std::ranges::max_element(
        looked_at_, {}, [&](Index d) { return distance(d) > near ? error_.change(d) : 0.0; }));
    while (std::ssize(chosen) < wanted) choose(farthest());
    return chosen;
  }

  /// Sine of the angle to the nearest direction solved.
  double distance(Index d) const {
    double least = 1.0;
    for (const auto& n : solved_) least = std::min(least, map_.directions.col(d).cross(n).norm());
    return least;
  }

  /// Step to the best of eight neighbours, half as far where none is better.
  void refine() {
    map_.refined = map_.directions.col(map_.best);
    auto best = map_.factors[map_.best].worst();
    if (!best) return;
    double step = std::sqrt(2.0 * std::numbers::pi / static_cast<double>(options_.directions));
    while (step > finest) {
      const Frame axes = frame_along(map_.refined);
      const Eigen::Vector3d from = map_.refined;
      bool better = false;
      for (int k = 0; k < 8; ++k) {
        const double angle = k * std::numbers::pi / 4.0;
        const Eigen::Vector3d n =
            (from + step * (std::cos(angle) * axes.col(0) + std::sin(angle) * axes.col(1)))
                .normalized();
        const auto factor = at(n).worst();
        if (!is_less(best, factor)) continue;
        best = factor;
        map_.refined = n;
        better = true;
      }
      if (!better) step *= 0.5;
    }
    map_.refined_factor = best;
  }

  static constexpr double near = 0.02;     // nearer a solution adds nothing
  static constexpr double finest = 0.005;  // a printer's plate is no truer

  StaticSolver& solver_;
  const Loading& loading_;
  const MapOptions& options_;
  const std::function<void(int)>& solving_;
  DirectionMap map_;
  TurningLoads loads_;
  DirectionalAnswer answer_;
  JudgedModel model_;  ///< its sites those of the bodies that turn
  MapError error_;
  std::vector<char> may_govern_;    ///< of the model's sites
  std::vector<char> in_some_case_;  ///< likewise, by a single load case
  BeadStrain few_;                  ///< there
  std::vector<Eigen::Vector3d> solved_;
  std::vector<Index> looked_at_;  ///< directions
};

}  // namespace

DirectionMap map_directions(StaticSolver& solver, const JudgedModel& model, const Loading& loading,
                            const MaterialField& field, const std::vector<BodyId>& bodies,
                            const JointReference* reference, const MapOptions& options,
                            const std::function<void(int)>& solving) {
  assert(!loading.joined || reference);
  return Mapper(solver, model, loading, field, bodies, reference, options, solving).map();
}

DirectionMap map_directions(StaticSolver& solver, const JudgedModel& model, const Loading& loading,
                            const MaterialField& field, const MapOptions& options,
                            const std::function<void(int)>& solving) {
  std::vector<BodyId> all = model.mesh.body_of_tetrahedron;
  std::ranges::sort(all);
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return map_directions(solver, model, loading, field, all, nullptr, options, solving);
}

}  // namespace crossgrain
