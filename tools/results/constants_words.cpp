// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/constants_words.h"

#include <set>

#include "cases/judgement/constant_effects.h"
#include "cases/judgement/factor_range.h"
#include "tools/results/number_text.h"

namespace crossgrain {
namespace {

// Of the factor: what moves it by less is not worth a row.
constexpr double worth_a_row = 0.01;

std::string full_name(const ConstantEffect& effect) {
  return effect.constant.name + " of " + effect.card;
}

std::string known_words(const ConstantEffect& effect, const ReadingUnits& units) {
  const auto [scale, unit] = unit_for_reading(effect.constant.unit, units);
  const Ranged& range = effect.constant.range;
  return number_text(range.low * scale) + " to " + number_text(range.high * scale) +
         (unit.empty() || unit == "-" ? "" : " " + unit);
}

std::string factor_words(const ConstantEffect& effect) {
  return (effect.basis == EffectBasis::foretold ? "about " : "") + factor_text(effect.at_low) +
         " to " + factor_text(effect.at_high);
}

bool is_zero_at_an_end(const ConstantEffect& effect) {
  return effect.at_low.value_or(1.0) == 0.0 || effect.at_high.value_or(1.0) == 0.0;
}

/// What is meant by how factors were found, of those ways that are in the rows.
std::string basis_notes(const std::set<EffectBasis>& used, bool joined) {
  std::string notes;
  if (used.contains(EffectBasis::judged))
    notes += " Judged: stress does not depend on it, and every place was judged anew.";
  if (used.contains(EffectBasis::solved))
    notes += " Solved: stress was solved for with both ends, and every place judged.";
  if (used.contains(EffectBasis::foretold))
    notes += std::string(
                 " Foretold: from one solution, at the governing place; another place may take "
                 "over, most of all where the effect is large") +
             (joined ? ", or the joint may open elsewhere." : ".");
  return notes;
}

void add_first_words(ConstantsWords& words, const ConstantEffect& first, const FactorRange& factor,
                     double target) {
  const ConstantsWords::Row& row = words.rows.front();
  const std::string meaning =
      first.constant.meaning.empty() ? "" : " (" + first.constant.meaning + ")";
  const std::string all = range_text(factor);
  const std::string from_end_to_end = ": it is known as " + row.known +
                                      ", and from end to end of that alone the factor goes from " +
                                      row.factor + ".";
  words.name = row.name;
  if (!is_less(factor.low, target) && !all.empty()) {
    words.before = "Nothing has to be measured for the " + number_text(target) +
                   " asked for: all constants together leave the factor at " + all +
                   ". What moves it most is ";
    words.after = meaning + from_end_to_end;
  } else {
    words.before = "Measure ";
    words.after = meaning + " first" + from_end_to_end +
                  (all.empty() ? "" : " All constants together leave it at " + all + ".");
  }
}

}  // namespace

std::optional<ConstantsWords> constants_words(const RunResult& result, const ReadingUnits& units) {
  const std::vector<ConstantEffect>& effects = result.constant_effects;
  if (effects.empty()) return std::nullopt;
  const FactorRange factor = worse_of(result.factor, result.pressure_factor);
  const double least = worth_a_row * factor.value.value_or(0.0);
  ConstantsWords words;
  std::string others;
  std::set<EffectBasis> used;
  bool any_zero = false;
  for (const ConstantEffect& effect : effects) {
    if (!(reach_of(effect) > least)) {
      others += (others.empty() ? "" : ", ") + full_name(effect);
      continue;
    }
    used.insert(effect.basis);
    any_zero = any_zero || is_zero_at_an_end(effect);
    words.rows.push_back({full_name(effect), known_words(effect, units), factor_words(effect),
                          std::string(name_of(effect.basis))});
  }
  if (words.rows.empty()) {
    words.before =
        "No constant that is known to a range only moves the factor by a hundredth by itself.";
    return words;
  }
  add_first_words(words, effects.front(), factor, result.targets.safety_factor);
  words.notes = "Each moves by itself, all others being nominal." +
                basis_notes(used, result.joint.has_value());
  if (any_zero)
    words.notes +=
        " 0: at that end what is held breaks a limit by itself, before any pressure comes.";
  if (!others.empty())
    words.notes += " By less than a hundredth the factor is moved by " + others + ".";
  return words;
}

}  // namespace crossgrain
