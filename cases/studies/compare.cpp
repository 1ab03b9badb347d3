// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/compare.h"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "cases/judgement/verdict.h"
#include "cases/judgement/verdict_sentence.h"

namespace crossgrain {
namespace {

constexpr const char* absent = "-";

const std::string* find_setting(const CaseSettings& settings, const std::string& name) {
  const auto found = std::ranges::find(settings, name, &std::pair<std::string, std::string>::first);
  return found == settings.end() ? nullptr : &found->second;
}

/// What differs, in the order of the first run's settings, then what only the second has.
std::vector<ComparedValue> compare_settings(const CaseSettings& first, const CaseSettings& second) {
  std::vector<ComparedValue> differences;
  for (const auto& [name, value] : first) {
    const auto* other = find_setting(second, name);
    if (other && *other == value) continue;
    differences.push_back({name, value, other ? *other : absent, ""});
  }
  for (const auto& [name, value] : second) {
    if (!find_setting(first, name)) differences.push_back({name, absent, value, ""});
  }
  return differences;
}

/// "+12 %"; empty unless both are numbers other than zero.
std::string change(const std::optional<double>& first, const std::optional<double>& second) {
  if (!first || !second || !(*first != 0.0)) return "";
  const double percent = 100.0 * (*second / *first - 1.0);
  std::ostringstream text;
  text.precision(std::abs(percent) < 100.0 ? 2 : 3);
  text << std::showpos << percent << " %";
  return text.str();
}

ComparedValue compare_factors(const std::string& quantity, const FactorRange& first,
                              const FactorRange& second) {
  return {quantity, words_for(first), words_for(second), change(first.value, second.value)};
}

ComparedValue compare_numbers(const std::string& quantity, const std::optional<double>& first,
                              const std::optional<double>& second) {
  return {quantity,
          first ? three_digits(*first) : absent,
          second ? three_digits(*second) : absent,
          change(first, second),
          {},
          {}};
}

ComparedValue compare_pressures(const std::string& quantity, const std::optional<double>& first,
                                const std::optional<double>& second) {
  ComparedValue row = compare_numbers(quantity, first, second);
  row.first_MPa = first;
  row.second_MPa = second;
  return row;
}

std::string where(const RunSummary& run) {
  return run.governing_body.empty() ? run.governing_mode
                                    : run.governing_mode + " in '" + run.governing_body + "'";
}

/// Factors case by case; a case that only one run has is shown with the other's place empty.
void add_case_factors(std::vector<ComparedValue>& results, const RunSummary& first,
                      const RunSummary& second) {
  using CaseFactor = std::pair<std::string, FactorRange>;
  for (const auto& [name, factor] : first.case_factors) {
    const auto other = std::ranges::find(second.case_factors, name, &CaseFactor::first);
    if (other == second.case_factors.end()) {
      results.push_back({"factor, " + name, words_for(factor), absent, ""});
    } else {
      results.push_back(compare_factors("factor, " + name, factor, other->second));
    }
  }
  for (const auto& [name, factor] : second.case_factors) {
    if (std::ranges::find(first.case_factors, name, &CaseFactor::first) !=
        first.case_factors.end()) {
      continue;
    }
    results.push_back({"factor, " + name, absent, words_for(factor), ""});
  }
}

/// Whether what the constants leave open is wider than the difference between the runs.
bool ranges_overlap(const FactorRange& a, const FactorRange& b) {
  if (!a.low || !a.high || !b.low || !b.high) return false;
  return *a.low <= *b.high && *b.low <= *a.high;
}

std::vector<std::string> sentences_for(const RunSummary& first, const RunSummary& second,
                                       const std::vector<ComparedValue>& settings) {
  std::vector<std::string> sentences;
  if (settings.empty()) {
    sentences.push_back("Both runs asked the same question: what differs comes from the program.");
  }
  if (first.verdict == "not_trusted" || second.verdict == "not_trusted") {
    sentences.push_back("A run that is not trusted says nothing about the other.");
  }
  if (first.factor.value && second.factor.value) {
    const bool first_is_better = *first.factor.value > *second.factor.value;
    const bool equal = *first.factor.value == *second.factor.value;
    std::string sentence = equal             ? "Both have the same factor"
                           : first_is_better ? "The first run has the larger factor"
                                             : "The second run has the larger factor";
    if (!equal && ranges_overlap(first.factor, second.factor)) {
      sentence +=
          ", yet the ranges overlap; what is uncertain is mostly the same in both, so the order "
          "holds better than the ranges suggest";
    }
    sentences.push_back(sentence + ".");
  }
  if (where(first) != where(second)) {
    sentences.push_back("What gives way first changes: " + where(first) + ", then " +
                        where(second) + ".");
  }
  return sentences;
}

}  // namespace

Comparison compare_runs(const RunSummary& first, const RunSummary& second) {
  Comparison comparison;
  comparison.settings = compare_settings(first.settings, second.settings);
  auto& results = comparison.results;
  results.push_back({"verdict", first.verdict, second.verdict, ""});
  results.push_back(compare_factors("factor on all loads", first.factor, second.factor));
  results.push_back(
      compare_factors("pressure factor", first.pressure_factor, second.pressure_factor));
  results.push_back({"gives way first", where(first), where(second), ""});
  results.push_back({"governing load case", first.governing_case, second.governing_case, ""});
  results.push_back(compare_pressures("working pressure", first.working_pressure_MPa,
                                      second.working_pressure_MPa));
  results.push_back(compare_pressures("allowable pressure", first.allowable_pressure_MPa,
                                      second.allowable_pressure_MPa));
  results.push_back(
      compare_pressures("proof pressure", first.proof_pressure_MPa, second.proof_pressure_MPa));
  results.push_back(compare_numbers("largest displacement (mm)", first.displacement_max_mm,
                                    second.displacement_max_mm));
  results.push_back(
      compare_numbers("strain energy (mJ)", first.strain_energy_mJ, second.strain_energy_mJ));
  results.push_back(compare_numbers("mass (g)", first.mass_g, second.mass_g));
  add_case_factors(results, first, second);
  comparison.sentences = sentences_for(first, second, comparison.settings);
  return comparison;
}

}  // namespace crossgrain
