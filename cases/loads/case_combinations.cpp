// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/case_combinations.h"

#include <algorithm>
#include <cmath>

#include "cases/loads/case_plans.h"

namespace crossgrain {
namespace {

constexpr const char* takes_none = "screws take none of the pressure";
constexpr const char* takes_all = "screws take all of the pressure";
constexpr const char* least_preload = "least preload";
constexpr const char* greatest_preload = "greatest preload";

enum class Bound { none, take_none, take_all };

class CaseBuilder {
 public:
  CaseBuilder(const CaseFile& case_file, const Loading& loading, const LoadRoles& roles)
      : case_file_(case_file), loading_(loading), roles_(roles) {}

  std::vector<LoadCase> build() {
    for (const CasePlan& plan : case_plans(case_file_, loading_)) {
      if (plan.kind == CaseKind::assembly) {
        add_assembly(plan);
      } else {
        add_variants(plan);
      }
    }
    return std::move(cases_);
  }

 private:
  /// The held loads alone, at the greatest preload.
  void add_assembly(const CasePlan& plan) {
    for (const Bound bound : bounds_of(plan)) {
      LoadCase built = make(plan, bound, greatest_preload);
      const auto held = [](double c) { return c != 0.0; };
      if (std::ranges::any_of(built.held, held)) cases_.push_back(std::move(built));
    }
  }

  /// Both ends of the preload (stress is linear in it and the admissible sets are convex, so the
  /// worst is at an end) times both bounds of the joint.
  void add_variants(const CasePlan& plan) {
    std::vector<std::string> preloads{greatest_preload};
    if (has_scatter(plan)) preloads.insert(preloads.begin(), least_preload);
    for (const auto& preload : preloads) {
      for (const Bound bound : bounds_of(plan)) cases_.push_back(make(plan, bound, preload));
    }
  }

  bool has_scatter(const CasePlan& plan) const {
    return std::ranges::any_of(roles_.preloads, [&](const PreloadLoad& p) {
      return plan.factor(p.bolts) != 0.0 && p.least != p.greatest;
    });
  }

  std::vector<Bound> bounds_of(const CasePlan& plan) const {
    bool pressed = false, pressurised = false;
    for (const auto& joint : roles_.joints) {
      if (plan.factor(joint.pressure) == 0.0) continue;
      pressurised = true;
      pressed = pressed || plan.factor(joint.bolts) != 0.0;
    }
    if (!pressurised) return {Bound::none};
    // Without preload there is no squeeze that pressure could relieve.
    if (!pressed) return {Bound::take_all};
    return {Bound::take_none, Bound::take_all};
  }

  LoadCase make(const CasePlan& plan, Bound bound, const std::string& preload) const {
    LoadCase built;
    built.name = plan.name;
    built.kind = plan.kind;
    built.strengths = plan.strengths;
    built.held.assign(loading_.loads.size(), 0.0);
    built.scaling.assign(loading_.loads.size(), 0.0);
    for (std::size_t i = 0; i < loading_.loads.size(); ++i) {
      add(built, plan, i, loading_.loads[i].name, plan.factor(loading_.loads[i].name));
    }
    for (const auto& p : roles_.preloads) {
      built.held[p.load] *= preload == least_preload ? p.least : p.greatest;
    }
    for (const auto& joint : roles_.joints) {
      built.held[joint.relief] = built.held[joint.share] = 0.0;
      built.scaling[joint.relief] = built.scaling[joint.share] = 0.0;
      if (bound == Bound::none) continue;
      add(built, plan, bound == Bound::take_none ? joint.relief : joint.share, joint.pressure,
          plan.factor(joint.pressure));
      limit(built, plan, bound, joint, preload);
    }
    name_bound(built, plan, bound, preload);
    lead_by_pressure(built, plan, loading_);
    return built;
  }

  /// Put load `i` into the held or the scaling part, as the load named `as` goes.
  void add(LoadCase& built, const CasePlan& plan, std::size_t i, const std::string& as,
           double coefficient) const {
    const auto named = std::ranges::find(loading_.loads, as, &ElementaryLoad::name);
    (plan.scales(*named) ? built.scaling : built.held)[i] = coefficient;
  }

  /// Where the bound's model ends: no squeeze left on the gasket, or no pull left on the screws.
  void limit(LoadCase& built, const CasePlan& plan, Bound bound, const JointLoads& joint,
             const std::string& preload) const {
    const auto& group = *std::ranges::find(roles_.preloads, joint.bolts, &PreloadLoad::bolts);
    const double closing = plan.factor(joint.bolts) * joint.closing_N *
                           (preload == least_preload ? group.least : group.greatest);
    if (closing == 0.0) return;
    const std::size_t acting = bound == Bound::take_none ? joint.relief : joint.share;
    // A fluid that pushes outwards relieves the gasket, a vacuum the screws.
    const double sense = bound == Bound::take_none ? 1.0 : -1.0;
    const double held = sense * built.held[acting] * joint.opening_N;
    const double scaling = sense * built.scaling[acting] * joint.opening_N;
    double lambda = 0.0;
    if (held < closing) {
      if (!(scaling > 0.0)) return;
      lambda = (closing - held) / scaling;
    }
    if (built.largest_lambda && *built.largest_lambda <= lambda) return;
    built.largest_lambda = lambda;
    built.largest_lambda_reason =
        bound == Bound::take_none ? "the gasket is relieved: the joint '" + joint.name + "' opens"
                                  : "the screws '" + joint.bolts + "' go slack";
  }

  void name_bound(LoadCase& built, const CasePlan& plan, Bound bound,
                  const std::string& preload) const {
    if (bound != Bound::none) built.bound = bound == Bound::take_none ? takes_none : takes_all;
    if (!has_scatter(plan)) return;
    built.bound += (built.bound.empty() ? "" : ", ") + preload;
  }

  const CaseFile& case_file_;
  const Loading& loading_;
  const LoadRoles& roles_;
  std::vector<LoadCase> cases_;
};

}  // namespace

std::vector<LoadCase> combine_cases(const CaseFile& case_file, const Loading& loading,
                                    const LoadRoles& roles) {
  return CaseBuilder(case_file, loading, roles).build();
}

}  // namespace crossgrain
