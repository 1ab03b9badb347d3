// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/bench/range_reach.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "cases/judgement/confirmed_effects.h"
#include "cases/judgement/constant_effects.h"
#include "cases/judgement/constant_variations.h"
#include "cases/judgement/factor_range.h"
#include "cases/judgement/followed_factor.h"
#include "cases/judgement/verdict.h"
#include "cases/loads/joint_states.h"
#include "tools/bench/seconds.h"
#include "tools/story/solved_case.h"

namespace crossgrain::bench {
namespace {

using nlohmann::json;

constexpr double cold_tolerance = 1e-8;
constexpr std::size_t most_in_corners = 6;  // constants, of which all corners are solved

json number(const std::optional<double>& factor) { return factor ? json(*factor) : json(nullptr); }

class Ranges {
 public:
  Ranges(PreparedCase& prepared, SolvedCase& solved, const RunResult& result)
      : prepared_(prepared), solved_(solved), result_(result) {}

  Times cold_solve() const {
    const TetrahedronMesh& mesh = prepared_.meshed.mesh;
    return time_of([&] {
      StaticSolver solver(mesh, constraints_of(mesh, prepared_.loading.supports),
                          {.tolerance = cold_tolerance});
      solver.set_material(prepared_.field);
      if (const auto& joined = prepared_.loading.joined)
        solve_states(solver, mesh, *joined, std::vector<bool>(joined->states.size(), true));
      else
        solver.solve(load_matrix(prepared_.loading), Unbalanced::left_to_inertia);
    });
  }

  /// What a joint makes of the straight line's factor, which constants take along.
  void find_followed() {
    RunResult run;
    run.cases = result_.cases;
    for (const FollowedFactor& factor :
         follow_factors(run.cases, solved_.solver, solved_.model, prepared_.loading,
                        prepared_.field, solved_.solution))
      take_in(factor, run.cases[factor.load_case]);
    find_worst(run);
    straight_line_ = worse_of(result_.factor, result_.pressure_factor).value;
    followed_ = worse_of(run.factor, run.pressure_factor).value;
  }

  Times find_effects() {
    return time_of([&] {
      effects_ = constant_effects(result_, solved_.model, prepared_.loading, solved_.solution,
                                  prepared_.field, solved_.counted, solved_.solver);
    });
  }

  Times confirm() {
    foretold_ = effects_;
    follow(foretold_, straight_line_, followed_);
    confirmed_ = result_;
    Loading loading = prepared_.loading;
    return time_of([&] {
      confirm_effects(effects_, confirmed_, solved_.solver, solved_.model, loading, prepared_.field,
                      solved_.solution);
    });
  }

  Times find_range() {
    Loading loading = prepared_.loading;
    return time_of([&] {
      add_ranges(confirmed_.cases, solved_.solver, solved_.model, loading, prepared_.field,
                 solved_.solution, stiffness_ends(effects_, prepared_.materials));
    });
  }

  void print_effects(const std::function<void(const json&)>& print) {
    print({{"factor", {{"straight_line", number(straight_line_)}, {"followed", number(followed_)}}},
           {"mesh_error", result_.mesh_error ? json(result_.mesh_error->factor) : json(nullptr)}});
    for (const ConstantEffect& effect : foretold_) {
      json line = {{"constant", effect.constant.name},
                   {"card", effect.card},
                   {"foretold", {number(effect.at_low), number(effect.at_high)}}};
      if (effect.basis == EffectBasis::foretold)
        for (const RangeEnd end : {RangeEnd::low, RangeEnd::high})
          line["solved"].push_back(number(solved_at(effect, end)));
      print(line);
    }
  }

  /// All corners of the constants that stress depends on, under the low and the high strengths.
  void print_corners(const std::function<void(const json&)>& print) {
    std::vector<std::string> names;
    for (const ConstantEffect& effect : effects_)
      if (effect.basis != EffectBasis::judged && reach_of(effect) > 1e-6 &&
          names.size() < most_in_corners)
        names.push_back(effect.constant.name);
    std::optional<double> low, high = 0.0;
    for (unsigned corner = 0; corner < 1u << names.size(); ++corner) {
      std::map<std::string, RangeEnd> ends;
      for (std::size_t i = 0; i < names.size(); ++i)
        ends[names[i]] = (corner >> i & 1u) != 0 ? RangeEnd::high : RangeEnd::low;
      const auto found = at_corner(ends);
      low = least(low, found[0]);
      high = greatest(high, found[1]);
    }
    find_worst(confirmed_);
    const FactorRange range = worse_of(confirmed_.factor, confirmed_.pressure_factor);
    print({{"corners", 1u << names.size()},
           {"factor_least_and_greatest_of_all_corners", {number(low), number(high)}},
           {"factor_range", {number(range.low), number(range.high)}}});
  }

 private:
  std::optional<double> solved_at(const ConstantEffect& effect, RangeEnd end) {
    Loading loading = prepared_.loading;
    const ConstantVariation variation =
        constant_variation(effect.card, effect.constant.name, end, prepared_.materials);
    return solved_factor(variation.solids, solved_.solver, solved_.model, loading, prepared_.field,
                         solved_.solution);
  }

  /// The factor solved anew, constants of those names at ends in all bodies.
  /// @return with the low and with the high strengths, on straight lines.
  std::array<std::optional<double>, 2> at_corner(const std::map<std::string, RangeEnd>& at) {
    std::vector<SolidMaterial> solids;
    for (const MaterialAtConditions& material : prepared_.materials.service) {
      std::vector<RangeEnd> ends;
      for (const RangedConstant& constant : ranged_constants(material))
        ends.push_back(at.contains(constant.name) ? at.at(constant.name) : RangeEnd::value);
      solids.push_back(solid_at_ends(material, ends).solid);
    }
    Loading loading = prepared_.loading;
    const OtherAnswer other = answer_of(solids, solved_.solver, solved_.model, loading,
                                        prepared_.field, solved_.solution);
    const auto factor = [&](MaterialSet strengths) {
      RunResult run;
      run.cases = judge_cases(solved_.model, loading, other.solution, other.field, strengths);
      find_worst(run);
      return worse_of(run.factor, run.pressure_factor).value;
    };
    return {factor(MaterialSet::low), factor(MaterialSet::high)};
  }

  PreparedCase& prepared_;
  SolvedCase& solved_;
  const RunResult& result_;
  std::optional<double> straight_line_, followed_;
  std::vector<ConstantEffect> foretold_, effects_;
  RunResult confirmed_;
};

}  // namespace

void measure_ranges(const std::filesystem::path& case_file,
                    const std::function<void(const json&)>& print) {
  ProgressLine progress(true);
  PreparedCase prepared = prepare_case(case_file, progress);
  prepared.case_file.solve.tolerance = cold_tolerance;
  Stopwatch stopwatch;
  RunResult result;
  const auto solved = solve_case(prepared, {}, nullptr, 0, progress, stopwatch, result);
  Ranges ranges(prepared, *solved, result);
  const Times before = ranges.cold_solve();
  ranges.find_followed();
  const Times effects = ranges.find_effects();
  const Times confirmed = ranges.confirm();
  const Times range = ranges.find_range();
  const Times after = ranges.cold_solve();
  const double wall = std::min(before.wall, after.wall),
               processor = std::min(before.processor, after.processor);
  print({{"unknowns", prepared.meshed.mesh.unknowns()},
         {"loads", prepared.loading.loads.size()},
         {"load_cases", prepared.loading.cases.size()},
         {"cold_solve_processor_seconds", {before.processor, after.processor}},
         {"effects_in_cold_solves", effects.wall / wall},
         {"confirmed_in_cold_solves", confirmed.wall / wall},
         {"range_in_cold_solves", range.wall / wall},
         {"effects_in_cold_solves_by_processor", effects.processor / processor},
         {"confirmed_in_cold_solves_by_processor", confirmed.processor / processor},
         {"range_in_cold_solves_by_processor", range.processor / processor}});
  ranges.print_effects(print);
  ranges.print_corners(print);
}

}  // namespace crossgrain::bench
