// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/direction_map_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "cases/judgement/factor_range.h"
#include "tools/results/direction_map_svg.h"
#include "tools/results/markdown.h"
#include "tools/results/number_text.h"
#include "tools/results/plain_text.h"

namespace crossgrain {
namespace {

constexpr std::size_t rows_shown = 8;

std::string percent(double share) { return number_text(100.0 * share, 2) + " %"; }

std::string csv_number(const std::optional<double>& value) {
  return value && std::isfinite(*value) ? fmt::format("{}", *value) : "";
}

std::optional<double> factor_of(const std::map<FailureMode, std::optional<double>>& modes,
                                FailureMode mode) {
  const auto found = modes.find(mode);
  return found == modes.end() ? std::nullopt : found->second;
}

double middle_of(std::vector<double> values) {
  const auto middle = values.begin() + std::ssize(values) / 2;
  std::ranges::nth_element(values, middle);
  return *middle;
}

/// The least and the greatest factor over all directions.
Json extremes_json(const DirectionMap& map, std::size_t load_case,
                   std::optional<double> CaseFactors::*factor) {
  std::optional<double> low, high = 0.0;
  for (const MappedFactors& factors : map.factors) {
    low = least(low, factors.of_case[load_case].*factor);
    high = greatest(high, factors.of_case[load_case].*factor);
  }
  return {{"least", json_number(low)}, {"greatest", json_number(high)}};
}

Json load_cases_json(const DirectionMap& map) {
  Json cases = Json::array();
  for (std::size_t i = 0; i < map.load_cases.size(); ++i) {
    const bool scales = std::ranges::any_of(map.factors, [&](const MappedFactors& factors) {
      return !factors.of_case[i].on_scaling_loads.empty();
    });
    cases.push_back(
        {{"load_case", map.load_cases[i]},
         {"safety_factor", extremes_json(map, i, &CaseFactors::factor)},
         {"pressure_factor",
          scales ? extremes_json(map, i, &CaseFactors::pressure_factor) : Json(nullptr)}});
  }
  return cases;
}

std::string unbeaten_table(const std::vector<TradeOff>& all) {
  std::vector<TradeOff> rows;
  std::ranges::copy_if(all, std::back_inserter(rows), &TradeOff::unbeaten);
  std::ranges::stable_sort(rows, [](const TradeOff& a, const TradeOff& b) {
    return a.factor.value_or(HUGE_VAL) > b.factor.value_or(HUGE_VAL);
  });
  MarkdownTable table({"up", "factor on the map", "height [mm]", "shadow [mm2]", "overhang [mm2]",
                       "of it inside [mm2]"});
  // Evenly from the strongest to the weakest: what strength costs shows on the way.
  const std::size_t shown = std::min(rows_shown, rows.size());
  for (std::size_t i = 0; i < shown; ++i) {
    const TradeOff& row = rows[shown < 2 ? i : i * (rows.size() - 1) / (shown - 1)];
    table.add({direction_text(row.up), factor_text(row.factor), number_text(row.print.height_mm),
               number_text(row.print.footprint_mm2), number_text(row.print.overhang_mm2),
               number_text(row.print.trapped_overhang_mm2)});
  }
  return wrapped(std::to_string(rows.size()) + " of " + std::to_string(all.size()) +
                 " directions are beaten by no other in every column of strength and printing; "
                 "these are some of them, strongest first. Of a direction and its opposite, which "
                 "are equally strong, the one with less overhang is meant.") +
         "\n" + table.text();
}

/// Which rows of the table are the map's, and what the map leaves out.
std::string what_is_solved(const DirectionOutputs& outputs, const MappedPrint& mapped) {
  if (outputs.maps.size() == 1 && !outputs.case_file.joined())
    return "\"Best\" and \"worst\" of the table above are its extremes, the best refined between "
           "the map's directions, and solved fully.";
  const std::string of = outputs.maps.size() > 1 ? " of " + markdown_text(mapped.print.name) : "";
  std::string words =
      "It judges this print alone, all others printed as in the case. \"Best" + of +
      "\" and \"worst" + of +
      "\" are its extremes, the best refined between the map's directions, and solved fully.";
  if (outputs.case_file.joined())
    words +=
        " On the map the joint answers as it does in the case: no face opens or closes, beddings "
        "keep their slope, a factor on pressure alone goes straight on. What is solved has its "
        "joint free.";
  return words;
}

/// The print's own factor wherever it was solved, beside what the map says.
std::string solved_table(const MappedPrint& mapped) {
  MarkdownTable table({"solved fully", "its own factor", "on the map", "stated to", "others"});
  for (const OwnFactor& own : mapped.solved)
    table.add({markdown_text(own.row), factor_text(own.factor),
               own.on_map ? factor_text(own.mapped) : "-", own.on_map ? percent(own.said) : "-",
               own.others_held ? "as in the case" : "turned as well"});
  return table.text();
}

}  // namespace

std::string map_reliance(const DirectionMap& map) {
  const std::string off =
      "The directions solved last, best and worst among them, were off the map by " +
      percent(map.error) +
      " at most; each was read from the map before its solution was taken in. By what they were "
      "off and how much the map changes without a fifth of its solutions, the factor's error "
      "against a full solution on the same mesh is put at " +
      percent(middle_of(map.errors)) + " in the middle of all directions and " +
      percent(std::ranges::max(map.errors)) + " at most";
  if (map.within_tolerance) return off + ".";
  return off + ". That is more than asked for, after " + std::to_string(map.solved) +
         " solutions, the budget being " + std::to_string(MapOptions{}.most) +
         ": take the map as a sketch, and the table of solved directions for results.";
}

std::vector<std::string> map_files(const std::vector<MappedPrint>& maps) {
  if (maps.size() == 1) return {"directions_map"};
  std::vector<std::string> files;
  for (const MappedPrint& mapped : maps) {
    const std::string stem = "directions_map_" + file_name_part(mapped.print.name);
    std::string file = stem;
    // "cases" names the files by load case.
    for (int n = 2; std::ranges::find(files, file) != files.end() || file.ends_with("_cases"); ++n)
      file = stem + "_" + std::to_string(n);
    files.push_back(std::move(file));
  }
  return files;
}

std::string direction_map_markdown(const DirectionOutputs& outputs, const MappedPrint& mapped,
                                   const std::string& files) {
  const DirectionMap& map = mapped.map;
  const bool several = outputs.maps.size() > 1;
  std::string out = several ? "## Map of " + markdown_text(mapped.print.name) + "\n\n"
                            : "## Map of all directions\n\n";
  out += wrapped("The map has " + std::to_string(map.directions.cols()) +
                 " directions, found from " + std::to_string(map.solved) + " that were solved (" +
                 files + ".svg and .csv; by load case " + files + "_cases.csv). " +
                 map_reliance(map) + " " + what_is_solved(outputs, mapped)) +
         "\n";
  if (several || outputs.case_file.joined()) out += solved_table(mapped);
  return out + unbeaten_table(mapped.trade_offs);
}

Json direction_map_json(const DirectionOutputs& outputs, const MappedPrint& mapped,
                        const std::string& files) {
  const DirectionMap& map = mapped.map;
  Json bodies = Json::array(), solved = Json::array();
  for (const BodyId body : mapped.print.bodies) bodies.push_back(outputs.geometry.body(body).name);
  for (const OwnFactor& own : mapped.solved)
    solved.push_back({{"row", own.row},
                      {"safety_factor", json_number(own.factor)},
                      {"on_map", own.on_map},
                      {"mapped", json_number(own.mapped)},
                      {"stated_error", own.said},
                      {"others_as_in_case", own.others_held}});
  return {{"print", mapped.print.name},
          {"bodies", std::move(bodies)},
          {"files", files},
          {"directions", map.directions.cols()},
          {"solved", map.solved},
          {"error", map.error},
          {"estimated_error",
           {{"middle", middle_of(map.errors)},
            {"greatest", std::ranges::max(map.errors)},
            {"best", map.errors[map.best]},
            {"worst", map.errors[map.worst]}}},
          {"within_tolerance", map.within_tolerance},
          {"load_cases", load_cases_json(map)},
          {"best", json_vector(map.refined)},
          {"worst", json_vector(map.directions.col(map.worst))},
          {"own_factors", std::move(solved)}};
}

std::string direction_map_csv(const MappedPrint& mapped) {
  const DirectionMap& map = mapped.map;
  std::set<FailureMode> modes;
  for (const auto& factors : map.factors)
    for (const auto& [mode, factor] : factors.on_all_loads) modes.insert(mode);
  std::string out = "x,y,z,safety_factor,pressure_factor,mode,estimated_error,tried";
  for (const FailureMode mode : modes)
    out += fmt::format(",safety_factor_{0},pressure_factor_{0}", name_of(mode));
  out +=
      ",height_mm,footprint_mm2,plate_contact_mm2,overhang_mm2,trapped_overhang_mm2,unbeaten\r\n";
  for (std::size_t d = 0; d < map.factors.size(); ++d) {
    const MappedFactors& factors = map.factors[d];
    const TradeOff& row = mapped.trade_offs[d];
    out += fmt::format("{},{},{},{},{},{},{},{}", row.up.x(), row.up.y(), row.up.z(),
                       csv_number(factors.factor), csv_number(factors.pressure_factor),
                       factors.governing ? name_of(*factors.governing) : "", map.errors[d],
                       static_cast<int>(map.tried[d]));
    for (const FailureMode mode : modes)
      out += "," + csv_number(factor_of(factors.on_all_loads, mode)) + "," +
             csv_number(factor_of(factors.on_scaling_loads, mode));
    for (const double value :
         {row.print.height_mm, row.print.footprint_mm2, row.print.plate_contact_mm2,
          row.print.overhang_mm2, row.print.trapped_overhang_mm2})
      out += "," + csv_number(value);
    out += row.unbeaten ? ",1\r\n" : ",0\r\n";
  }
  return out;
}

std::string direction_map_cases_csv(const MappedPrint& mapped) {
  const DirectionMap& map = mapped.map;
  std::set<FailureMode> modes;
  for (const auto& factors : map.factors)
    for (const CaseFactors& of_case : factors.of_case)
      for (const auto& [mode, factor] : of_case.on_all_loads) modes.insert(mode);
  std::string out = "x,y,z,load_case,safety_factor,pressure_factor";
  for (const FailureMode mode : modes)
    out += fmt::format(",safety_factor_{0},pressure_factor_{0}", name_of(mode));
  out += "\r\n";
  for (std::size_t d = 0; d < map.factors.size(); ++d) {
    const Eigen::Vector3d& up = mapped.trade_offs[d].up;
    for (std::size_t i = 0; i < map.factors[d].of_case.size(); ++i) {
      const CaseFactors& factors = map.factors[d].of_case[i];
      out += fmt::format("{},{},{},{},{},{}", up.x(), up.y(), up.z(), csv_field(map.load_cases[i]),
                         csv_number(factors.factor), csv_number(factors.pressure_factor));
      for (const FailureMode mode : modes)
        out += "," + csv_number(factor_of(factors.on_all_loads, mode)) + "," +
               csv_number(factor_of(factors.on_scaling_loads, mode));
      out += "\r\n";
    }
  }
  return out;
}

std::string direction_map_picture(const DirectionOutputs& outputs, const MappedPrint& mapped) {
  std::vector<MarkedDirection> marked;
  for (const OwnFactor& own : mapped.solved) {
    const auto row = std::ranges::find(outputs.rows, own.row, &DirectionRow::name);
    if (row != outputs.rows.end())
      marked.push_back({own.row + " " + factor_text(own.factor),
                        direction_of(*row, mapped.print.bodies.front())});
  }
  return direction_map_svg(mapped.map, marked);
}

}  // namespace crossgrain
