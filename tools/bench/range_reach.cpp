// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/bench/range_reach.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "cases/judgement/constant_effects.h"
#include "cases/judgement/factor_range.h"
#include "cases/judgement/verdict.h"
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
      solver.solve(load_matrix(prepared_.loading), Unbalanced::left_to_inertia);
    });
  }

  Times find_effects() {
    return time_of([&] {
      effects_ = constant_effects(result_, solved_.model, prepared_.loading, solved_.solution,
                                  prepared_.field, solved_.counted);
    });
  }

  Times find_range() {
    results_ = result_.cases;
    Loading loading = prepared_.loading;
    return time_of([&] {
      add_ranges(results_, solved_.solver, solved_.model, loading, prepared_.field,
                 solved_.solution, stiffness_ends(effects_, prepared_.materials));
    });
  }

  void print_effects(const std::function<void(const json&)>& print) {
    for (const ConstantEffect& effect : effects_) {
      json line = {{"constant", effect.constant.name},
                   {"card", effect.card},
                   {"foretold", {number(effect.at_low), number(effect.at_high)}}};
      if (effect.estimated)
        for (const RangeEnd end : {RangeEnd::low, RangeEnd::high})
          line["solved"].push_back(
              number(solved_at({{effect.constant.name, end}}, {MaterialSet::nominal}).front()));
      print(line);
    }
  }

  /// All corners of the constants that stress depends on, under the low and the high strengths.
  void print_corners(const std::function<void(const json&)>& print) {
    std::vector<std::string> names;
    for (const ConstantEffect& effect : effects_)
      if (effect.estimated && reach_of(effect) > 1e-6 && names.size() < most_in_corners)
        names.push_back(effect.constant.name);
    std::optional<double> low, high = 0.0;
    for (unsigned corner = 0; corner < 1u << names.size(); ++corner) {
      std::map<std::string, RangeEnd> ends;
      for (std::size_t i = 0; i < names.size(); ++i)
        ends[names[i]] = (corner >> i & 1u) != 0 ? RangeEnd::high : RangeEnd::low;
      const auto found = solved_at(ends, {MaterialSet::low, MaterialSet::high});
      low = least(low, found[0]);
      high = greatest(high, found[1]);
    }
    RunResult ranged = result_;
    ranged.cases = results_;
    find_worst(ranged);
    const FactorRange range = worse_of(ranged.factor, ranged.pressure_factor);
    print({{"corners", 1u << names.size()},
           {"factor_least_and_greatest_of_all_corners", {number(low), number(high)}},
           {"factor_range", {number(range.low), number(range.high)}}});
  }

 private:
  /// The factor solved anew, constants of those names at ends in all bodies.
  /// @param strengths  by which it is judged.  @return with each of them.
  std::vector<std::optional<double>> solved_at(const std::map<std::string, RangeEnd>& at,
                                               const std::vector<MaterialSet>& strengths) {
    MaterialField field = prepared_.field;
    for (std::size_t body = 0; body < field.materials.size(); ++body) {
      const MaterialAtConditions& material = prepared_.materials.service[body];
      std::vector<RangeEnd> ends;
      for (const RangedConstant& constant : ranged_constants(material))
        ends.push_back(at.contains(constant.name) ? at.at(constant.name) : RangeEnd::value);
      field.materials[body] = solid_at_ends(material, ends).solid;
    }
    const JudgedModel& model = solved_.model;
    Loading loading = prepared_.loading;
    solved_.solver.set_material(field);
    update_field_loads(loading, model.mesh, field);
    const auto solution = solve_loads(solved_.solver, model.mesh, field, model.sites.fit, loading,
                                      &solved_.solution.displacement);
    std::vector<std::optional<double>> factors;
    for (const MaterialSet set : strengths) {
      RunResult run;
      run.cases = judge_cases(model, loading, solution, field, set);
      find_worst(run);
      factors.push_back(least(run.factor.value, run.pressure_factor.value));
    }
    return factors;
  }

  PreparedCase& prepared_;
  SolvedCase& solved_;
  const RunResult& result_;
  std::vector<ConstantEffect> effects_;
  std::vector<CaseResult> results_;
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
  const Times effects = ranges.find_effects();
  const Times range = ranges.find_range();
  const Times after = ranges.cold_solve();
  const double wall = std::min(before.wall, after.wall),
               processor = std::min(before.processor, after.processor);
  print({{"unknowns", prepared.meshed.mesh.unknowns()},
         {"loads", prepared.loading.loads.size()},
         {"load_cases", prepared.loading.cases.size()},
         {"cold_solve_processor_seconds", {before.processor, after.processor}},
         {"effects_in_cold_solves", effects.wall / wall},
         {"range_in_cold_solves", range.wall / wall},
         {"effects_in_cold_solves_by_processor", effects.processor / processor},
         {"range_in_cold_solves_by_processor", range.processor / processor}});
  ranges.print_effects(print);
  ranges.print_corners(print);
}

}  // namespace crossgrain::bench
