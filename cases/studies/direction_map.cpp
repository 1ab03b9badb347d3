// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/direction_map.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "cases/judgement/factor_range.h"
#include "solver/directions/energy_bound.h"
#include "solver/directions/half_sphere.h"
#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

using Eigen::Index;

// A snapshot's own error enters the answer squared in energy, and strength at its own size.
constexpr double snapshot_tolerance = 1e-4;
// Modes within this many times the worst factor count as able to govern.
constexpr double reach = 1.5;
// Sites whose multiplier exceeds the least by more, in every direction that was solved, are left
// out. What that could hide shows in the directions tried: they are judged at all sites.
constexpr double margin = 2.0;

class Mapper {
 public:
  Mapper(StaticSolver& solver, const JudgedModel& model, const Loading& loading,
         const MaterialField& field, const MapOptions& options,
         const std::function<void(int)>& solving)
      : solver_(solver),
        model_(model),
        loading_(loading),
        field_(field),
        options_(options),
        solving_(solving),
        answer_(model, loading_, field),
        may_govern_(model.sites.points.size(), 0) {
    // Parts stand flat along their axes, which the spread does not meet.
    map_.directions.resize(3, options.directions + 3);
    map_.directions << half_sphere(options.directions), Eigen::Matrix3d::Identity();
    // Near enough to every direction for the corners' factor to stay.
    solver_.set_material(isotropic_field(field).field);
  }

  DirectionMap map() {
    const Eigen::Matrix3Xd first = half_sphere(options_.first);
    for (const Eigen::Vector3d n : first.colwise()) solve(n);
    std::vector<double> differences;
    look();
    while (true) {
      const Index tried = next();
      const MappedFactors guess = map_.factors[tried];
      solve(map_.directions.col(tried));
      const auto found = judged_everywhere(map_.directions.col(tried));
      differences.push_back(greatest_difference(guess, found, reach));
      const auto last =
          differences.end() - std::min<Index>(options_.tried, std::ssize(differences));
      map_.error = *std::max_element(last, differences.end());
      map_.within_tolerance =
          std::ssize(differences) >= options_.tried && map_.error <= options_.tolerance;
      if (map_.within_tolerance || map_.solved >= options_.most) break;
      look();
    }
    look();
    refine();
    return std::move(map_);
  }

 private:
  void solve(const Eigen::Vector3d& n) {
    solving_(map_.solved);
    MaterialField turned = field_;
    for (auto& frame : turned.frames) frame = frame_along(n);
    solver_.set_material(turned);
    update_field_loads(loading_, model_.mesh, turned);
    const Eigen::MatrixXd start = answer_.displacement(n);
    answer_.widen(n, solver_.solve(load_matrix(loading_), Unbalanced::left_to_inertia, &start,
                                   snapshot_tolerance));
    const auto near_here = sites_near_the_least(answer_, loading_.cases, model_, n, margin);
    for (std::size_t i = 0; i < may_govern_.size(); ++i) may_govern_[i] |= near_here[i];
    solved_.push_back(n);
    ++map_.solved;
  }

  /// Of a direction just taken in.
  MappedFactors judged_everywhere(const Eigen::Vector3d& n) const {
    return judged(n, answer_.everywhere(), model_.threads);
  }

  /// The map of what has been taken in.
  void look() {
    std::vector<Index> kept;
    for (Index i = 0; i < std::ssize(may_govern_); ++i)
      if (may_govern_[i]) kept.push_back(i);
    few_ = answer_.at(kept);
    map_.factors.resize(map_.directions.cols());
    in_parallel(map_.directions.cols(), model_.threads, [&](Index begin, Index end) {
      for (auto d = begin; d < end; ++d) map_.factors[d] = at(map_.directions.col(d));
    });
    map_.best = map_.worst = 0;
    for (Index d = 0; d < std::ssize(map_.factors); ++d) {
      if (is_less(map_.factors[d].worst(), map_.factors[map_.worst].worst())) map_.worst = d;
      if (is_less(map_.factors[map_.best].worst(), map_.factors[d].worst())) map_.best = d;
    }
  }

  MappedFactors at(const Eigen::Vector3d& n) const { return judged(n, few_, 1); }

  MappedFactors judged(const Eigen::Vector3d& n, const BeadStrain& felt, int threads) const {
    return judge_direction(loading_.cases, answer_.stress(n, felt), felt.sites, model_, threads);
  }

  /// In turn the worst, the best and the farthest from all that were solved.
  Index next() {
    const Index turn = turn_++ % 3;
    if (turn == 0 && distance(map_.worst) > near) return map_.worst;
    if (turn == 1 && distance(map_.best) > near) return map_.best;
    Index farthest = 0;
    for (Index d = 1; d < map_.directions.cols(); ++d)
      if (distance(d) > distance(farthest)) farthest = d;
    return farthest;
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
  const JudgedModel& model_;
  Loading loading_;
  const MaterialField& field_;
  const MapOptions& options_;
  const std::function<void(int)>& solving_;
  DirectionalAnswer answer_;
  std::vector<char> may_govern_;  ///< of the model's sites
  BeadStrain few_;                ///< there
  std::vector<Eigen::Vector3d> solved_;
  Index turn_ = 0;
  DirectionMap map_;
};

}  // namespace

DirectionMap map_directions(StaticSolver& solver, const JudgedModel& model, const Loading& loading,
                            const MaterialField& field, const MapOptions& options,
                            const std::function<void(int)>& solving) {
  if (loading.joined)
    throw std::invalid_argument(
        "[directions]: bodies that are joined by faces that can part have no map of print "
        "directions; name the directions to compare with named = { ... }");
  return Mapper(solver, model, loading, field, options, solving).map();
}

}  // namespace crossgrain
