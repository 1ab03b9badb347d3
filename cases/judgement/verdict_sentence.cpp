// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/verdict_sentence.h"

#include <algorithm>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/verdict.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

std::optional<double> least_factor(const CaseResult& result) {
  const auto on_all = result.all_loads.factor.value;
  return result.scaling_loads.applies ? least(on_all, result.scaling_loads.factor.value) : on_all;
}

/// How far the scaling loads are from their limit. A multiple: the reader's unit is not known here.
std::string pressure_reached(const CaseResult& result) {
  const auto& factor = result.scaling_loads.factor.value;
  if (!factor || !result.leading_value_MPa) return "";
  if (*factor == 0.0) return "under the held loads alone";
  return "at " + three_digits(*factor) + " times the pressure";
}

}  // namespace

std::string three_digits(double value) { return words(value, 3); }

std::string what_and_where(const ModeResult& mode) {
  std::string text(words_for(mode.mode));
  if (!mode.body.empty()) text += " in '" + mode.body + "'";
  text += " at " + words(mode.position) + " mm";
  if (mode.face) text += " on face " + std::to_string(number(*mode.face));
  return text;
}

std::string title_of(const CaseResult& result) { return case_title(result.name, result.bound); }

int least_case(const RunResult& result) {
  int least_so_far = -1;
  for (std::size_t i = 0; i < result.cases.size(); ++i) {
    if (result.cases[i].kind == CaseKind::proof) continue;
    if (least_so_far < 0 ||
        is_less(least_factor(result.cases[i]), least_factor(result.cases[least_so_far]))) {
      least_so_far = static_cast<int>(i);
    }
  }
  return least_so_far;
}

std::string first_to_give_way(const RunResult& result) {
  const int index = least_case(result);
  if (index < 0) return "";
  const auto& worst = result.cases[index];
  if (!least_factor(worst)) return "No limit was found.";
  const bool by_pressure = worst.scaling_loads.applies &&
                           !is_less(worst.all_loads.factor.value, worst.scaling_loads.factor.value);
  const auto& judgement = by_pressure ? worst.scaling_loads : worst.all_loads;
  const std::string what =
      judgement.governing ? what_and_where(*judgement.governing) : judgement.limited_by;
  const std::string when = by_pressure ? pressure_reached(worst)
                                       : "with all loads together at " +
                                             three_digits(*worst.all_loads.factor.value) +
                                             " times their size";
  return "First to give way: " + what + (when.empty() ? "" : ", " + when) + ", load case " +
         title_of(worst) + ".";
}

std::string why_from_zero(const RunResult& result) {
  const FactorRange factor = worse_of(result.factor, result.pressure_factor);
  const auto is_zero = [](const std::optional<double>& end) { return end && *end == 0.0; };
  if (!is_zero(factor.low) || is_zero(factor.value)) return "";
  std::vector<FailureMode> modes;
  std::string ways, where;
  for (const CaseResult& load_case : result.cases) {
    if (load_case.kind == CaseKind::proof || !is_zero(load_case.scaling_loads.factor.low)) continue;
    if (where.empty()) where = title_of(load_case);
    for (const ModeResult& mode : load_case.scaling_loads.modes) {
      // A second opinion does not set the factor.
      if (mode.mode == FailureMode::tsai_wu || !is_zero(mode.factor.low) ||
          std::ranges::find(modes, mode.mode) != modes.end())
        continue;
      modes.push_back(mode.mode);
      ways += (ways.empty() ? "" : ", or ") + std::string(words_for(mode.mode));
    }
  }
  if (ways.empty()) return "";
  return "The range begins at 0 because, if constants are as weak as they may be, what is held "
         "(preload, weight, warmth) breaks a limit by itself, before any pressure comes: " +
         ways + ", load case " + where + ".";
}

std::string sentence_for(const RunResult& result) {
  const auto factor = worse_of(result.factor, result.pressure_factor);
  const std::string target = three_digits(result.targets.safety_factor);
  std::string sentence;
  if (is_less(factor.high, result.targets.safety_factor)) {
    sentence = "The factor is " + words_for(factor) + ", below the " + target + " asked for.";
  } else if (is_less(factor.low, result.targets.safety_factor)) {
    sentence = "The factor is " + words_for(factor) + ": the " + target +
               " asked for lies inside what the constants leave open.";
  } else {
    sentence = "The factor is " + words_for(factor) + "; " + target + " is asked for.";
  }
  const std::string first = first_to_give_way(result);
  return first.empty() ? sentence : sentence + " " + first;
}

}  // namespace crossgrain
