// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/mapped_factors.h"

#include <algorithm>
#include <cmath>

#include "cases/judgement/factor_range.h"
#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

using Eigen::Index;
using ModeFactors = std::map<FailureMode, std::optional<double>>;

const StressField nothing(6, 0);

StressField total(const DirectionalAnswer::CaseStress& stress) {
  if (stress.held.cols() == 0) return stress.scaling;
  if (stress.scaling.cols() == 0) return stress.held;
  return stress.held + stress.scaling;
}

void take_in(const Judgement& judgement, ModeFactors& modes, std::optional<double>& factor) {
  if (!judgement.applies) return;
  for (const ModeResult& mode : judgement.modes) {
    if (mode.mode == FailureMode::tsai_wu) continue;  // a second opinion never governs
    auto& entry = modes[mode.mode];
    entry = least(entry, mode.factor.value);
  }
  factor = least(factor, judgement.factor.value);
}

double difference(const ModeFactors& mapped, const ModeFactors& solved, double reach,
                  const std::optional<double>& worst) {
  double greatest = 0.0;
  for (const auto& [mode, right] : solved) {
    const auto found = mapped.find(mode);
    const auto guess = found == mapped.end() ? std::nullopt : found->second;
    const auto nearer = least(guess, right);
    if (!nearer || !worst || *nearer > reach * *worst) continue;  // cannot govern
    greatest = std::max(greatest, guess && right ? std::abs(*guess / *right - 1.0) : 1.0);
  }
  return greatest;
}

class Marker {
 public:
  Marker(const StressSites& sites, double margin, int threads)
      : sites_(sites), margin_(margin), threads_(threads), marked_(sites.points.size(), 0) {}

  const std::vector<char>& marked() const { return marked_; }
  void mark(const Yardstick& yardstick, const StressField& held, const StressField& scaling) {
    for (const FailureMode mode : modes_of(yardstick, false)) {
      const Eigen::VectorXd at = multipliers(mode, yardstick, held, scaling);
      const double limit = margin_ * at.minCoeff();
      for (Index i = 0; i < at.size(); ++i)
        if (std::isfinite(limit) && at[i] <= limit) marked_[i] = 1;
    }
  }

 private:
  /// Infinity where the mode does not judge.
  Eigen::VectorXd multipliers(FailureMode mode, const Yardstick& yardstick, const StressField& held,
                              const StressField& scaling) const {
    Eigen::VectorXd at = Eigen::VectorXd::Constant(scaling.cols(), HUGE_VAL);
    in_parallel(at.size(), threads_, [&](Index begin, Index end) {
      for (auto i = begin; i < end; ++i) {
        const Strength& strength = yardstick.strength_of_body[index(sites_.points[i].body)];
        if (sites_.near_artificial[i] || !judges(mode, strength, yardstick.criterion)) continue;
        const Vector6d here = held.cols() == 0 ? Vector6d(Vector6d::Zero()) : Vector6d(held.col(i));
        if (!here.allFinite() || !scaling.col(i).allFinite()) continue;
        at[i] = load_multiplier(mode, strength, here, scaling.col(i)).value_or(HUGE_VAL);
      }
    });
    return at;
  }

  const StressSites& sites_;
  double margin_;
  int threads_;
  std::vector<char> marked_;
};

}  // namespace

std::optional<double> MappedFactors::worst() const { return least(factor, pressure_factor); }

MappedFactors judge_direction(const std::vector<LoadCase>& cases,
                              const std::vector<DirectionalAnswer::CaseStress>& stress,
                              const StressSites& sites, const JudgedModel& model, int threads) {
  MappedFactors result;
  std::optional<double> worst;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    if (cases[i].kind == CaseKind::proof) continue;
    const Yardstick yardstick = yardstick_of(model.materials, cases[i].strengths,
                                             MaterialSet::nominal, model.targets.criterion);
    const StressField sum = total(stress[i]);
    if (sum.cols() == 0) continue;
    const Judgement on_all = judge(sites, yardstick, nothing, sum, threads);
    const Judgement on_scaling =
        judge_scaling(cases[i], sites, yardstick, stress[i].held, stress[i].scaling, threads);
    take_in(on_all, result.on_all_loads, result.factor);
    take_in(on_scaling, result.on_scaling_loads, result.pressure_factor);
    for (const Judgement* judgement : {&on_all, &on_scaling}) {
      if (!judgement->applies || !is_less(judgement->factor.value, worst)) continue;
      worst = judgement->factor.value;
      result.governing =
          judgement->governing ? std::optional(judgement->governing->mode) : std::nullopt;
    }
  }
  return result;
}

double greatest_difference(const MappedFactors& mapped, const MappedFactors& solved, double reach) {
  return std::max(
      difference(mapped.on_all_loads, solved.on_all_loads, reach, solved.worst()),
      difference(mapped.on_scaling_loads, solved.on_scaling_loads, reach, solved.worst()));
}

std::vector<char> sites_near_the_least(const DirectionalAnswer& answer,
                                       const std::vector<LoadCase>& cases, const JudgedModel& model,
                                       const Eigen::Vector3d& direction, double margin) {
  Marker marker(answer.everywhere().sites, margin, model.threads);
  const auto stress = answer.stress(direction, answer.everywhere());
  for (std::size_t i = 0; i < cases.size(); ++i) {
    if (cases[i].kind == CaseKind::proof) continue;
    const Yardstick yardstick = yardstick_of(model.materials, cases[i].strengths,
                                             MaterialSet::nominal, model.targets.criterion);
    if (const StressField sum = total(stress[i]); sum.cols() > 0)
      marker.mark(yardstick, nothing, sum);
    if (stress[i].held.cols() > 0 && stress[i].scaling.cols() > 0)
      marker.mark(yardstick, stress[i].held, stress[i].scaling);
  }
  return marker.marked();
}

}  // namespace crossgrain
