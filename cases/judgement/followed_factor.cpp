// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/followed_factor.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "cases/judgement/case_judgement.h"
#include "cases/judgement/factor_range.h"
#include "cases/judgement/verdict_sentence.h"
#include "cases/loads/joint_states.h"

namespace crossgrain {
namespace {

/// Far below what meshes and constants leave open.
constexpr double close_enough = 0.01;
/// Two did in the joints tried; a gap that closes on the way took four.
constexpr int states_most = 5;
/// Of load cases that are followed because others turned out less weak.
constexpr std::size_t cases_most = 3;

/// The two states that a joint's load case lies between.
JointWay way_of(const LoadCase& load_case) {
  const auto state_of = [&](double coefficient) {
    const auto found = std::ranges::find(load_case.scaling, coefficient);
    if (found == load_case.scaling.end())
      throw std::logic_error("load case '" + load_case.name + "' lies between no two states");
    return static_cast<std::size_t>(found - load_case.scaling.begin());
  };
  return {state_of(-1.0), state_of(1.0), 1.0};
}

class FactorFollower {
 public:
  FactorFollower(StaticSolver& solver, const JudgedModel& model, const Loading& loading,
                 const MaterialField& field, const ElementarySolution& solution)
      : solver_(solver), model_(model), loading_(loading), field_(field), solution_(solution) {}

  FollowedFactor follow(std::size_t index, double promised) {
    const LoadCase& load_case = loading_.cases[index];
    const Yardstick yardstick = yardstick_of(model_.materials, load_case.strengths,
                                             MaterialSet::nominal, model_.targets.criterion);
    JointWay way = way_of(load_case);
    const StressField at_rest = local(solution_.stress[way.from]);
    FollowedFactor followed{.load_case = index};
    for (int states = 0; states < states_most; ++states) {
      way.multiple = promised;
      const StressField there = local(stress_at(way));
      followed.judgement = judge_scaling(load_case, model_.sites, yardstick, at_rest,
                                         (there - at_rest) / way.multiple, model_.threads);
      followed.multiple = way.multiple;
      const auto& found = followed.judgement.factor.value;
      if (!found || !std::isfinite(*found) || !(*found > 0.0)) {
        followed.unsettled = "no limit was found on the line to the state at " +
                             three_digits(way.multiple) + " times the loads";
        return followed;
      }
      if (std::abs(*found / promised - 1.0) <= close_enough) return followed;
      promised = *found;
    }
    followed.unsettled = "it still changed after " + std::to_string(states_most) + " states";
    return followed;
  }

 private:
  StressField local(const StressField& stress) const {
    return in_material_axes(stress, model_.sites.points, field_, model_.threads);
  }
  StressField stress_at(const JointWay& way) {
    const JoinedBodies& joined = *loading_.joined;
    const JointSolution there =
        solve_on_way(solver_, model_.mesh, joined, solution_.joint_states, way);
    const Eigen::VectorXd& rest = loading_.loads[way.from].temperature_change;
    const Eigen::VectorXd& loaded = loading_.loads[way.to].temperature_change;
    Eigen::VectorXd warmth = rest;
    if (loaded.size() > 0)
      warmth = rest.size() > 0 ? Eigen::VectorXd(rest + way.multiple * (loaded - rest))
                               : Eigen::VectorXd(way.multiple * loaded);
    return model_.sites.fit.of(element_stress(model_.mesh, field_, there.displacement, warmth));
  }

  StaticSolver& solver_;
  JudgedModel model_;
  const Loading& loading_;
  const MaterialField& field_;
  const ElementarySolution& solution_;
};

/// Of the cases that speak for service, the one whose factor on the scaling loads is least.
std::size_t weakest(const std::vector<CaseResult>& results,
                    const std::vector<std::optional<double>>& factors) {
  std::size_t least = results.size();
  for (std::size_t i = 0; i < results.size(); ++i) {
    if (results[i].kind == CaseKind::proof || !results[i].scaling_loads.applies) continue;
    if (least == results.size() || is_less(factors[i], factors[least])) least = i;
  }
  return least;
}

void keep_ratio(FactorRange& range, const FactorRange& straight) {
  const auto scaled = [&](const std::optional<double>& end) -> std::optional<double> {
    if (!end || !straight.value || !range.value) return end;
    return *end * *range.value / *straight.value;
  };
  range.low = scaled(straight.low);
  range.high = scaled(straight.high);
}

/// The mesh's error stays the part of the factor that it was.
void keep_part(ModeResult& mode, const ModeResult& straight) {
  if (straight.mesh_error && straight.factor.value && mode.factor.value)
    mode.mesh_error = *straight.mesh_error * *mode.factor.value / *straight.factor.value;
}

void lower(std::optional<double>& pressure, double ratio) {
  if (pressure) *pressure *= std::min(1.0, ratio);
}

}  // namespace

std::vector<FollowedFactor> follow_factors(const std::vector<CaseResult>& results,
                                           StaticSolver& solver, const JudgedModel& model,
                                           const Loading& loading, const MaterialField& field,
                                           const ElementarySolution& solution) {
  std::vector<FollowedFactor> all;
  if (!loading.joined) return all;
  std::vector<std::optional<double>> factors;
  for (const auto& result : results) factors.push_back(result.scaling_loads.factor.value);
  FactorFollower follower(solver, model, loading, field, solution);
  while (all.size() < cases_most) {
    const std::size_t index = weakest(results, factors);
    const bool done = std::ranges::find(all, index, &FollowedFactor::load_case) != all.end();
    if (index == results.size() || done || !factors[index] || !(*factors[index] > 0.0)) break;
    FollowedFactor followed{.load_case = index};
    try {
      followed = follower.follow(index, *factors[index]);
    } catch (const std::runtime_error& error) {
      followed.unsettled = error.what();
    }
    if (followed.unsettled.empty()) factors[index] = followed.judgement.factor.value;
    all.push_back(std::move(followed));
  }
  return all;
}

void take_in(const FollowedFactor& followed, CaseResult& result) {
  result.followed =
      FollowedWay{result.scaling_loads.factor.value, followed.multiple, followed.unsettled};
  if (!followed.unsettled.empty()) return;
  Judgement judgement = followed.judgement;
  const Judgement& straight = result.scaling_loads;
  for (const auto modes :
       {&Judgement::modes, &Judgement::near_artificial, &Judgement::under_heads}) {
    for (ModeResult& mode : judgement.*modes) {
      const auto same = std::ranges::find(straight.*modes, mode.mode, &ModeResult::mode);
      if (same == (straight.*modes).end()) continue;
      keep_ratio(mode.factor, same->factor);
      keep_part(mode, *same);
      if (judgement.governing && judgement.governing->mode == mode.mode && mode.mesh_error)
        judgement.governing->mesh_error = mode.mesh_error;
    }
  }
  keep_ratio(judgement.factor, straight.factor);
  if (judgement.governing) judgement.governing->factor = judgement.factor;
  const double ratio = *judgement.factor.value / *straight.factor.value;
  lower(result.allowable_pressure_MPa, ratio);
  lower(result.allowable_pressure_low_MPa, ratio);
  lower(result.allowable_pressure_high_MPa, ratio);
  result.scaling_loads = std::move(judgement);
}

}  // namespace crossgrain
