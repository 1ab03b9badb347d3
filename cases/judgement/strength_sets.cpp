// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/strength_sets.h"

#include "cases/judgement/factor_range.h"
#include "cases/judgement/least_multiplier.h"
#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

using Eigen::Index;

constexpr double round_off = 1e-9;  // of a multiple that was sought

/// Stress whose multiple is sought, on top of what is held; no columns: nothing is held.
struct Growing {
  StressField held;
  StressField scaling;
};

std::optional<double> least_factor(const StressSites& sites, const Yardstick& yardstick,
                                   const Growing& stress, int threads) {
  std::optional<double> factor;
  for (const auto& found : least_multipliers(sites, SiteGroup::judged, yardstick, stress.held,
                                             stress.scaling, false, threads))
    factor = least(factor, found.value);
  return factor;
}

/// Sites that are past a limit under what is held alone or at this multiple. What a limit admits is
/// convex, so that no other site reaches one between.
std::vector<Index> sites_past(double multiple, const StressSites& sites, const Yardstick& yardstick,
                              const Growing& stress, int threads) {
  std::vector<char> past(sites.points.size(), 0);
  const auto modes = modes_of(yardstick, false);
  in_parallel(stress.scaling.cols(), threads, [&](Index begin, Index end) {
    for (Index i = begin; i < end; ++i) {
      const Strength& strength = yardstick.strength_of_body[index(sites.points[i].body)];
      const Vector6d held =
          stress.held.cols() > 0 ? Vector6d(stress.held.col(i)) : Vector6d::Zero();
      const Vector6d grown = held + multiple * stress.scaling.col(i);
      for (const FailureMode mode : modes)
        if (grown.allFinite() && judges(mode, strength, yardstick.criterion) &&
            (failure_index(mode, strength, held) >= 1.0 ||
             failure_index(mode, strength, grown) >= 1.0))
          past[i] = 1;
    }
  });
  std::vector<Index> found;
  for (Index i = 0; i < std::ssize(past); ++i)
    if (past[i]) found.push_back(i);
  return found;
}

/// Where some set of strengths between the weakest and the strongest may find its least factor.
class SitesThatMayGovern {
 public:
  SitesThatMayGovern(const JudgedModel& model, const Yardstick& weakest, const Yardstick& strongest,
                     const Growing& stress)
      : sites_(model.sites), stress_(stress), threads_(model.threads) {
    const auto most = least_factor(model.sites, strongest, stress, model.threads);
    if (!most) return;
    const std::vector<Index> chosen =
        sites_past((1.0 + round_off) * *most, model.sites, weakest, stress, model.threads);
    sites_ = chosen_sites(model.sites, chosen);
    stress_.scaling = stress.scaling(Eigen::all, chosen);
    if (stress.held.cols() > 0) stress_.held = stress.held(Eigen::all, chosen);
  }
  std::optional<double> least_factor_of(const Yardstick& yardstick) const {
    return least_factor(sites_, yardstick, stress_, threads_);
  }

 private:
  StressSites sites_;
  Growing stress_;
  int threads_;
};

}  // namespace

std::vector<std::optional<double>> factors_of_strengths(
    const std::vector<std::vector<Strength>>& sets, const JudgedModel& model,
    const Loading& loading, const ElementarySolution& solution, const MaterialField& field) {
  std::vector<std::optional<double>> factors(sets.size());
  const Criterion criterion = model.targets.criterion;
  const auto take = [&](const Growing& stress, const std::optional<double>& end) {
    const SitesThatMayGovern sites(
        model, yardstick_of(model.materials, StrengthBasis::service, MaterialSet::low, criterion),
        yardstick_of(model.materials, StrengthBasis::service, MaterialSet::high, criterion),
        stress);
    for (std::size_t i = 0; i < sets.size(); ++i)
      factors[i] = least(factors[i], least(end, sites.least_factor_of({sets[i], criterion})));
  };
  for (const LoadCase& load_case : loading.cases) {
    if (load_case.kind == CaseKind::proof) continue;
    const CombinedCase combined = combine(load_case, loading, solution);
    const auto in_axes = [&](const StressField& stress, bool counts) {
      return counts ? in_material_axes(stress, model.sites.points, field, model.threads)
                    : StressField(6, 0);
    };
    take({StressField(6, 0), in_axes(combined.held + combined.scaling, true)}, std::nullopt);
    if (combined.anything_scales)
      take({in_axes(combined.held, combined.anything_held), in_axes(combined.scaling, true)},
           load_case.largest_lambda);
  }
  return factors;
}

}  // namespace crossgrain
