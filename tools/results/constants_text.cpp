// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <set>

#include "cases/judgement/constant_effects.h"
#include "cases/judgement/factor_range.h"
#include "tools/results/markdown.h"
#include "tools/results/number_text.h"
#include "tools/results/plain_text.h"
#include "tools/results/summary_sections.h"

namespace crossgrain {
namespace {

// Of the factor: what moves it by less is not worth a row.
constexpr double worth_a_row = 0.01;

/// "Zt of petg"
std::string name_of(const ConstantEffect& effect) {
  return markdown_text(effect.constant.name + " of " + effect.card);
}

/// "12 to 25 MPa"
std::string range_words(const ConstantEffect& effect, const ReadingUnits& units) {
  const auto [scale, unit] = unit_for_reading(effect.constant.unit, units);
  const Ranged& range = effect.constant.range;
  return number_text(range.low * scale) + " to " + number_text(range.high * scale) +
         (unit.empty() || unit == "-" ? "" : " " + markdown_text(unit));
}

/// "2.1 to 4.4", from the low to the high end of the constant.
std::string factor_words(const ConstantEffect& effect) {
  return (effect.basis == EffectBasis::foretold ? "about " : "") + factor_text(effect.at_low) +
         " to " + factor_text(effect.at_high);
}

bool is_zero_at_an_end(const ConstantEffect& effect) {
  return effect.at_low.value_or(1.0) == 0.0 || effect.at_high.value_or(1.0) == 0.0;
}

/// What the words of the table's last column mean, of those that are in it.
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

std::string first_words(const ConstantEffect& first, const FactorRange& factor, double target,
                        const ReadingUnits& units) {
  const std::string meaning =
      first.constant.meaning.empty() ? "" : " (" + markdown_text(first.constant.meaning) + ")";
  const std::string name = "**" + name_of(first) + "**" + meaning;
  const std::string all = range_text(factor);
  const std::string from_end_to_end = ": it is known as " + range_words(first, units) +
                                      ", and from end to end of that alone the factor goes from " +
                                      factor_words(first) + ".";
  if (!is_less(factor.low, target) && !all.empty())
    return "Nothing has to be measured for the " + number_text(target) +
           " asked for: all constants together leave the factor at " + all +
           ". What moves it most is " + name + from_end_to_end;
  return "Measure " + name + " first" + from_end_to_end +
         (all.empty() ? "" : " All constants together leave it at " + all + ".");
}

}  // namespace

std::string constants_section(const RunOutputs& outputs, const ReadingUnits& units) {
  const RunResult& result = outputs.result;
  if (result.constant_effects.empty()) return "";
  const FactorRange factor = worse_of(result.factor, result.pressure_factor);
  const double least = worth_a_row * factor.value.value_or(0.0);
  MarkdownTable table({"constant", "known as", "factor from end to end", "how"});
  std::string others;
  std::set<EffectBasis> used;
  bool any_zero = false;
  for (const ConstantEffect& effect : result.constant_effects) {
    if (!(reach_of(effect) > least)) {
      others += (others.empty() ? "" : ", ") + name_of(effect);
      continue;
    }
    used.insert(effect.basis);
    any_zero = any_zero || is_zero_at_an_end(effect);
    table.add({name_of(effect), range_words(effect, units), factor_words(effect),
               std::string(name_of(effect.basis))});
  }
  std::string out = "## Which constant to measure\n\n";
  if (table.empty())
    return out +
           wrapped(
               "No constant that is known to a range only moves the factor by a "
               "hundredth by itself.") +
           "\n";
  out += wrapped(first_words(result.constant_effects.front(), factor, result.targets.safety_factor,
                             units)) +
         "\n" + table.text();
  std::string notes = "Each moves by itself, all others being nominal." +
                      basis_notes(used, result.joint.has_value());
  if (any_zero)
    notes += " 0: at that end what is held breaks a limit by itself, before any pressure comes.";
  if (!others.empty()) notes += " By less than a hundredth the factor is moved by " + others + ".";
  return out + wrapped(notes) + "\n";
}

}  // namespace crossgrain
