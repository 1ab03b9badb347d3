// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/mapped_factors.h"

#include <algorithm>
#include <cmath>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/judgement.h"
#include "cases/judgement/least_multiplier.h"
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

Vector6d at_site(const StressField& stress, Index site) {
  return stress.cols() == 0 ? Vector6d(Vector6d::Zero()) : Vector6d(stress.col(site));
}

/// Loads of a case of which the factors are multiples.
struct Growing {
  bool on_scaling_loads;
  const StressField& held;
  const StressField& scaling;
};

/// Call take(load case, yardstick, what grows) for all that is judged.
template <class Take>
void for_each_case(const std::vector<LoadCase>& cases,
                   const std::vector<DirectionalAnswer::CaseStress>& stress,
                   const JudgedModel& model, JudgedCases which, const Take& take) {
  for (std::size_t i = 0; i < cases.size(); ++i) {
    if (which == JudgedCases::for_service && cases[i].kind == CaseKind::proof) continue;
    const Yardstick yardstick = yardstick_of(model.materials, cases[i].strengths,
                                             MaterialSet::nominal, model.targets.criterion);
    const StressField sum = total(stress[i]);
    if (sum.cols() > 0) take(i, yardstick, Growing{false, nothing, sum});
    if (stress[i].scaling.cols() > 0)
      take(i, yardstick, Growing{true, stress[i].held, stress[i].scaling});
  }
}

void note_case(const std::vector<LeastMultiplier>& found, const std::optional<double>& end,
               bool scaling, CaseFactors& factors) {
  auto& overall = scaling ? factors.pressure_factor : factors.factor;
  for (const LeastMultiplier& mode : found) {
    (scaling ? factors.on_scaling_loads : factors.on_all_loads)[mode.mode] = mode.value;
    overall = least(overall, mode.value);
  }
  overall = least(overall, end);
}

/// Mark the sites of a mode that have left what its limit admits at this multiple. It admits a
/// convex set, so that whoever has left it there has crossed before.
void mark_past(double multiple, FailureMode mode, const Yardstick& yardstick,
               const Growing& growing, const JudgedModel& model, std::vector<char>& marked) {
  in_parallel(growing.scaling.cols(), model.threads, [&](Index begin, Index end) {
    for (auto i = begin; i < end; ++i) {
      const Strength& strength = yardstick.strength_of_body[index(model.sites.points[i].body)];
      const double length =
          multiple * growing.scaling.col(i).norm() + at_site(growing.held, i).norm();
      if (marked[i] || length < safe_length(mode, strength) ||
          model.sites.group_of(i, mode) != SiteGroup::judged ||
          !judges(mode, strength, yardstick.criterion))
        continue;
      const Vector6d here = at_site(growing.held, i) + multiple * growing.scaling.col(i);
      marked[i] = here.allFinite() && failure_index(mode, strength, here) >= 1.0 ? 1 : 0;
    }
  });
}

void take_place(std::vector<WorstPlace>& places, const WorstPlace& place) {
  const auto same = std::ranges::find_if(places, [&](const WorstPlace& other) {
    return other.mode == place.mode && other.on_scaling_loads == place.on_scaling_loads;
  });
  if (same == places.end())
    places.push_back(place);
  else
    *same = place;
}

double difference(const ModeFactors& mapped, const ModeFactors& solved, double reach,
                  const std::optional<double>& worst) {
  double greatest = 0.0;
  for (const auto& [mode, right] : solved) {
    const auto found = mapped.find(mode);
    const auto guess = found == mapped.end() ? std::nullopt : found->second;
    const auto nearer = least(guess, right);
    if (!nearer || !worst || *nearer > reach * *worst) continue;  // cannot govern
    greatest = std::max(greatest, relative_difference(guess, right));
  }
  return greatest;
}

}  // namespace

std::optional<double> MappedFactors::worst() const { return least(factor, pressure_factor); }

MappedFactors judge_direction(const std::vector<LoadCase>& cases,
                              const std::vector<DirectionalAnswer::CaseStress>& stress,
                              const StressSites& sites, const JudgedModel& model, int threads,
                              JudgedCases which) {
  MappedFactors result;
  std::optional<double> worst;
  if (which == JudgedCases::every) result.of_case.resize(cases.size());
  const auto take = [&](std::size_t i, const auto& yardstick, Growing growing) {
    const bool scaling = growing.on_scaling_loads;
    const auto found = least_multipliers(sites, SiteGroup::judged, yardstick, growing.held,
                                         growing.scaling, false, threads);
    // The model ends there: no factor beyond it is known.
    const auto end = scaling ? cases[i].largest_lambda : std::nullopt;
    if (which == JudgedCases::every) note_case(found, end, scaling, result.of_case[i]);
    if (cases[i].kind == CaseKind::proof) return;
    auto& modes = scaling ? result.on_scaling_loads : result.on_all_loads;
    auto& overall = scaling ? result.pressure_factor : result.factor;
    for (const LeastMultiplier& mode : found) {
      auto& entry = modes[mode.mode];
      if (is_less(mode.value, entry)) {
        entry = mode.value;
        take_place(result.places, {mode.mode, scaling, i, mode.site, *mode.value});
      }
      overall = least(overall, mode.value);
      if (!is_less(mode.value, worst)) continue;
      worst = mode.value;
      result.governing = mode.mode;
    }
    overall = least(overall, end);
    if (!is_less(end, worst)) return;
    worst = end;
    result.governing.reset();
  };
  for_each_case(cases, stress, model, which, take);
  return result;
}

MappedFactors judge_solution(const Loading& loading, const ElementarySolution& solution,
                             const MaterialField& field, const JudgedModel& model,
                             JudgedCases which) {
  std::vector<DirectionalAnswer::CaseStress> stress;
  for (const LoadCase& load_case : loading.cases) {
    const CombinedCase combined = combine(load_case, loading, solution);
    const auto turned = [&](const StressField& global, bool acts) {
      return acts ? in_material_axes(global, model.sites.points, field, model.threads) : nothing;
    };
    stress.push_back({turned(combined.held, combined.anything_held),
                      turned(combined.scaling, combined.anything_scales)});
  }
  return judge_direction(loading.cases, stress, model.sites, model, model.threads, which);
}

MappedFactors judge_solution_of(const std::vector<BodyId>& bodies, const Loading& loading,
                                const ElementarySolution& solution, const MaterialField& field,
                                const JudgedModel& model, JudgedCases which) {
  const std::vector<Index> own = sites_of(model.sites, bodies);
  const StressSites sites = chosen_sites(model.sites, own);
  ElementarySolution there{solution.displacement, {}, 0.0, {}};
  for (const StressField& stress : solution.stress) there.stress.push_back(stress(Eigen::all, own));
  return judge_solution(loading, there, field,
                        {model.mesh, sites, model.materials, model.targets, model.threads}, which);
}

double relative_difference(const std::optional<double>& a, const std::optional<double>& b) {
  if (!a || !b) return a || b ? 1.0 : 0.0;
  const double greater = std::max(std::abs(*a), std::abs(*b));
  return greater > 0.0 ? std::abs(*a - *b) / greater : 0.0;
}

double greatest_difference(const MappedFactors& mapped, const MappedFactors& solved, double reach) {
  return std::max(
      difference(mapped.on_all_loads, solved.on_all_loads, reach, solved.worst()),
      difference(mapped.on_scaling_loads, solved.on_scaling_loads, reach, solved.worst()));
}

double greatest_difference(const MappedFactors& mapped, double reach,
                           const std::vector<LoadCase>& cases,
                           const std::vector<DirectionalAnswer::CaseStress>& stress,
                           const StressSites& sites, const JudgedModel& model) {
  double greatest = 0.0;
  for (std::size_t i = 0; i < mapped.places.size(); ++i) {
    const WorstPlace& place = mapped.places[i];
    if (place.factor > reach * mapped.worst().value_or(HUGE_VAL)) continue;
    const auto site = static_cast<Index>(i);
    const Yardstick yardstick = yardstick_of(model.materials, cases[place.load_case].strengths,
                                             MaterialSet::nominal, model.targets.criterion);
    const Strength& strength = yardstick.strength_of_body[index(sites.points[i].body)];
    const auto& here = stress[place.load_case];
    const Vector6d held = at_site(here.held, site), scaling = at_site(here.scaling, site);
    const auto other = place.on_scaling_loads ? load_multiplier(place.mode, strength, held, scaling)
                                              : load_multiplier(place.mode, strength,
                                                                Vector6d::Zero(), held + scaling);
    greatest = std::max(greatest, relative_difference(place.factor, other));
  }
  return greatest;
}

std::vector<char> sites_near_the_worst(const std::vector<LoadCase>& cases,
                                       const std::vector<DirectionalAnswer::CaseStress>& stress,
                                       const MappedFactors& factors, const KeptSites& kept,
                                       const JudgedModel& model) {
  std::vector<char> near(model.sites.points.size(), 0);
  const double able = kept.reach * factors.worst().value_or(0.0);
  for_each_case(cases, stress, model, JudgedCases::for_service,
                [&](std::size_t, const auto& yardstick, Growing growing) {
                  for (const WorstPlace& place : factors.places) {
                    if (place.on_scaling_loads != growing.on_scaling_loads) continue;
                    const double margin =
                        place.factor <= able ? kept.able_margin : kept.other_margin;
                    mark_past(margin * place.factor, place.mode, yardstick, growing, model, near);
                  }
                });
  return near;
}

std::vector<char> sites_near_each_case(const std::vector<LoadCase>& cases,
                                       const std::vector<DirectionalAnswer::CaseStress>& stress,
                                       const MappedFactors& factors, double margin,
                                       const JudgedModel& model) {
  std::vector<char> near(model.sites.points.size(), 0);
  for_each_case(cases, stress, model, JudgedCases::every,
                [&](std::size_t i, const auto& yardstick, Growing growing) {
                  const CaseFactors& of_case = factors.of_case[i];
                  const auto& modes =
                      growing.on_scaling_loads ? of_case.on_scaling_loads : of_case.on_all_loads;
                  for (const auto& [mode, factor] : modes)
                    if (factor) mark_past(margin * *factor, mode, yardstick, growing, model, near);
                });
  return near;
}

}  // namespace crossgrain
