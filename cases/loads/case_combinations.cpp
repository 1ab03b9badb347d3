// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/case_combinations.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "cases/loads/vacuum.h"

namespace crossgrain {
namespace {

constexpr const char* takes_none = "screws take none of the pressure";
constexpr const char* takes_all = "screws take all of the pressure";
constexpr const char* least_preload = "least preload";
constexpr const char* greatest_preload = "greatest preload";

enum class Bound { none, take_none, take_all };

/// Multiples of the loads by their names in the case file.
using Factors = std::map<std::string, double>;

class CaseBuilder {
 public:
  CaseBuilder(const CaseFile& case_file, const Loading& loading, const LoadRoles& roles)
      : case_file_(case_file), loading_(loading), roles_(roles) {}

  std::vector<LoadCase> build() {
    add_assembly();
    if (anything_scales()) add_variants(working());
    for (const auto& spec : case_file_.load_cases) {
      add_variants({spec.name, CaseKind::user, StrengthBasis::service, spec.factors, {}});
    }
    if (loading_.leading_pressure) add_variants(proof());
    return std::move(cases_);
  }

 private:
  /// A case before its variants: what acts, and which of it is held though it scales in service.
  struct Plan {
    std::string name;
    CaseKind kind;
    StrengthBasis strengths;
    Factors factors;
    std::vector<std::string> held_here;
  };

  bool anything_scales() const {
    return std::ranges::any_of(loading_.loads, &ElementaryLoad::scales);
  }

  Plan working() const {
    Plan plan{"working", CaseKind::working, StrengthBasis::service, {}, {}};
    for (const auto& load : loading_.loads) plan.factors[load.name] = 1.0;
    return plan;
  }

  /// Every scaling pressure raised by the proof factor, other scaling loads held, no change of
  /// temperature.
  Plan proof() const {
    Plan plan = working();
    plan.name = "proof";
    plan.kind = CaseKind::proof;
    plan.strengths = StrengthBasis::proof;
    const double multiple =
        std::min(case_file_.targets.proof_factor, largest_multiple(loading_.working_pressure_MPa));
    for (const auto& pressure : case_file_.pressures) {
      if (pressure.scales) plan.factors[pressure.name] = multiple;
    }
    for (const auto& force : case_file_.forces) plan.held_here.push_back(force.name);
    for (const auto& acceleration : case_file_.accelerations) {
      plan.held_here.push_back(acceleration.name);
    }
    for (const auto& change : case_file_.temperatures) plan.factors[change.name] = 0.0;
    return plan;
  }

  /// The held loads alone, at the greatest preload.
  void add_assembly() {
    Plan plan = working();
    plan.name = roles_.preloads.empty() ? "held loads alone" : "assembly";
    plan.kind = CaseKind::assembly;
    for (const auto& load : loading_.loads) {
      if (load.scales) plan.factors[load.name] = 0.0;
    }
    for (const Bound bound : bounds_of(plan)) {
      LoadCase built = make(plan, bound, greatest_preload);
      const auto held = [](double c) { return c != 0.0; };
      if (std::ranges::any_of(built.held, held)) cases_.push_back(std::move(built));
    }
  }

  /// Both ends of the preload (stress is linear in it and the admissible sets are convex, so the
  /// worst is at an end) times both bounds of the joint.
  void add_variants(const Plan& plan) {
    std::vector<std::string> preloads{greatest_preload};
    if (has_scatter(plan)) preloads.insert(preloads.begin(), least_preload);
    for (const auto& preload : preloads) {
      for (const Bound bound : bounds_of(plan)) cases_.push_back(make(plan, bound, preload));
    }
  }

  static double factor(const Plan& plan, const std::string& load) {
    const auto found = plan.factors.find(load);
    return found == plan.factors.end() ? 0.0 : found->second;
  }

  bool has_scatter(const Plan& plan) const {
    return std::ranges::any_of(roles_.preloads, [&](const PreloadLoad& p) {
      return factor(plan, p.bolts) != 0.0 && p.least != p.greatest;
    });
  }

  std::vector<Bound> bounds_of(const Plan& plan) const {
    bool pressed = false, pressurised = false;
    for (const auto& joint : roles_.joints) {
      if (factor(plan, joint.pressure) == 0.0) continue;
      pressurised = true;
      pressed = pressed || factor(plan, joint.bolts) != 0.0;
    }
    if (!pressurised) return {Bound::none};
    // Without preload there is no squeeze that pressure could relieve.
    if (!pressed) return {Bound::take_all};
    return {Bound::take_none, Bound::take_all};
  }

  LoadCase make(const Plan& plan, Bound bound, const std::string& preload) const {
    LoadCase built;
    built.name = plan.name;
    built.kind = plan.kind;
    built.strengths = plan.strengths;
    built.held.assign(loading_.loads.size(), 0.0);
    built.scaling.assign(loading_.loads.size(), 0.0);
    for (std::size_t i = 0; i < loading_.loads.size(); ++i) {
      add(built, plan, i, loading_.loads[i].name, factor(plan, loading_.loads[i].name));
    }
    for (const auto& p : roles_.preloads) {
      built.held[p.load] *= preload == least_preload ? p.least : p.greatest;
    }
    for (const auto& joint : roles_.joints) {
      built.held[joint.relief] = built.held[joint.share] = 0.0;
      built.scaling[joint.relief] = built.scaling[joint.share] = 0.0;
      if (bound == Bound::none) continue;
      add(built, plan, bound == Bound::take_none ? joint.relief : joint.share, joint.pressure,
          factor(plan, joint.pressure));
      limit(built, plan, bound, joint, preload);
    }
    name_bound(built, plan, bound, preload);
    lead(built, plan);
    return built;
  }

  /// Put load `i` into the held or the scaling part, as the load named `as` goes.
  void add(LoadCase& built, const Plan& plan, std::size_t i, const std::string& as,
           double coefficient) const {
    const auto named = std::ranges::find(loading_.loads, as, &ElementaryLoad::name);
    const bool held_here = std::ranges::find(plan.held_here, as) != plan.held_here.end();
    (named->scales && !held_here ? built.scaling : built.held)[i] = coefficient;
  }

  /// Where the bound's model ends: no squeeze left on the gasket, or no pull left on the screws.
  void limit(LoadCase& built, const Plan& plan, Bound bound, const JointLoads& joint,
             const std::string& preload) const {
    const auto& group = *std::ranges::find(roles_.preloads, joint.bolts, &PreloadLoad::bolts);
    const double closing = factor(plan, joint.bolts) * joint.closing_N *
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

  void name_bound(LoadCase& built, const Plan& plan, Bound bound,
                  const std::string& preload) const {
    if (bound != Bound::none) built.bound = bound == Bound::take_none ? takes_none : takes_all;
    if (!has_scatter(plan)) return;
    built.bound += (built.bound.empty() ? "" : ", ") + preload;
  }

  void lead(LoadCase& built, const Plan& plan) const {
    if (!loading_.leading_pressure) return;
    const double multiple = factor(plan, *loading_.leading_pressure);
    if (multiple == 0.0) return;
    built.leading_pressure = loading_.leading_pressure;
    built.leading_value_MPa = multiple * loading_.working_pressure_MPa;
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
