// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/joint_cases.h"

#include <algorithm>

#include "cases/loads/case_plans.h"
#include "cases/loads/joint_states.h"

namespace crossgrain {
namespace {

std::string in_words(PreloadLevel preload) { return std::string(words(preload)) + " preload"; }

/// A preload, and whether time has taken its part of it.
struct Tightness {
  PreloadLevel preload;
  bool after_loss;

  std::string words() const { return in_words(preload) + (after_loss ? " after losses" : ""); }
};

class JointCaseBuilder {
 public:
  JointCaseBuilder(const CaseFile& case_file, Loading& loading)
      : case_file_(case_file), loading_(loading), joined_(*loading.joined) {}

  void build() {
    // Plans speak of the loads from outside, which are not the loading's own any more.
    loading_.loads = joined_.acting;
    const auto plans = case_plans(case_file_, loading_);
    for (const CasePlan& plan : plans) {
      for (const Tightness& tightness : tightnesses(plan)) add_case(plan, tightness);
    }
    loading_.loads.clear();
    for (const JointStateSpec& state : joined_.states) {
      loading_.loads.push_back(outside_load(joined_, state));
    }
    for (LoadCase& load_case : loading_.cases) {
      load_case.held.resize(joined_.states.size(), 0.0);
      load_case.scaling.resize(joined_.states.size(), 0.0);
    }
  }

 private:
  std::vector<Tightness> tightnesses(const CasePlan& plan) const {
    if (joined_.screws.empty()) return {{PreloadLevel::nominal, false}};
    if (plan.kind == CaseKind::assembly)
      return {{PreloadLevel::least, false}, {PreloadLevel::greatest, false}};
    std::vector<Tightness> both{{PreloadLevel::least, false}, {PreloadLevel::greatest, false}};
    // A proof test comes soon after assembly, before time has taken its part.
    if (plan.kind == CaseKind::proof) return both;
    both.push_back({PreloadLevel::least, true});
    both.push_back({PreloadLevel::greatest, true});
    return both;
  }

  void add_case(const CasePlan& plan, const Tightness& tightness) {
    std::vector<double> held(joined_.acting.size(), 0.0), all = held;
    for (std::size_t i = 0; i < joined_.acting.size(); ++i) {
      const ElementaryLoad& load = joined_.acting[i];
      all[i] = plan.factor(load.name);
      if (!plan.scales(load)) held[i] = all[i];
    }
    const bool anything_scales = held != all;
    const std::size_t at_rest = state(tightness, held, "held loads");
    LoadCase built;
    built.name = plan.name;
    built.kind = plan.kind;
    built.strengths = plan.strengths;
    if (!joined_.screws.empty()) built.bound = tightness.words();
    set(built.held, at_rest, 1.0);
    if (anything_scales) {
      const std::size_t loaded = state(tightness, all, plan.name);
      set(built.scaling, loaded, 1.0);
      set(built.scaling, at_rest, -1.0);
    }
    lead_by_pressure(built, plan, loading_);
    if (anything_scales || plan.kind == CaseKind::assembly) {
      loading_.cases.push_back(std::move(built));
    }
  }

  static void set(std::vector<double>& coefficients, std::size_t state, double value) {
    if (coefficients.size() <= state) coefficients.resize(state + 1, 0.0);
    coefficients[state] = value;
  }

  /// The screws tightened one after another until all have their preload, and nothing else acting.
  std::size_t tightened(PreloadLevel preload) {
    return found_or_added({"tightened, " + in_words(preload), "tightened", preload,
                           std::vector<double>(joined_.acting.size(), 0.0)});
  }

  /// The same with what creep leaves of the preload: as stated it is a share of the force in the
  /// joint, however soft or stiff what gives way is.
  std::size_t crept(PreloadLevel preload) {
    return found_or_added({"crept, " + in_words(preload),
                           "crept",
                           preload,
                           std::vector<double>(joined_.acting.size(), 0.0),
                           {},
                           true});
  }

  std::size_t state(const Tightness& tightness, const std::vector<double>& acting,
                    const std::string& what) {
    const bool nothing_acts = std::ranges::all_of(acting, [](double c) { return c == 0.0; });
    if (joined_.screws.empty()) return found_or_added({what, what, PreloadLevel::nominal, acting});
    const std::size_t locked_in =
        tightness.after_loss ? crept(tightness.preload) : tightened(tightness.preload);
    if (nothing_acts && !tightness.after_loss) return locked_in;
    return found_or_added({what + ", " + tightness.words(),
                           what + (tightness.after_loss ? " after losses" : ""), tightness.preload,
                           acting, locked_in, tightness.after_loss});
  }

  std::size_t found_or_added(JointStateSpec spec) {
    const auto same = [&](const JointStateSpec& other) {
      return other.preload == spec.preload && other.acting == spec.acting &&
             other.locked_in == spec.locked_in && other.after_loss == spec.after_loss;
    };
    const auto found = std::ranges::find_if(joined_.states, same);
    if (found != joined_.states.end())
      return static_cast<std::size_t>(found - joined_.states.begin());
    joined_.states.push_back(std::move(spec));
    return joined_.states.size() - 1;
  }

  const CaseFile& case_file_;
  Loading& loading_;
  JoinedBodies& joined_;
};

}  // namespace

void combine_joint_cases(const CaseFile& case_file, Loading& loading) {
  JointCaseBuilder(case_file, loading).build();
}

}  // namespace crossgrain
