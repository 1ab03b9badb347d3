// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>

#include "tools/results/markdown.h"
#include "tools/results/number_text.h"
#include "tools/results/plain_text.h"
#include "tools/results/summary_sections.h"

namespace crossgrain {
namespace {

std::string faces_text(const std::vector<FaceId>& faces) {
  constexpr std::size_t shown = 4;
  std::string text;
  for (std::size_t i = 0; i < std::min(shown, faces.size()); ++i)
    text += (i ? " " : "") + std::to_string(number(faces[i]));
  if (faces.size() > shown) text += fmt::format(" and {} more", faces.size() - shown);
  return text;
}

std::string input_text(const HandInput& input, const ReadingUnits& units) {
  const UnitForReading read = unit_for_reading(input.unit, units);
  return input.symbol + " " + number_text(read.scale * input.value) +
         (read.name.empty() ? "" : " " + read.name);
}

std::string percent_off(const HandComparison& comparison) {
  const double off = 100.0 * (comparison.surface_MPa / comparison.hand_MPa - 1.0);
  return fmt::format("{:+.0f} %", off);
}

/// Formulas and reasons stand below the table: no paper is wide enough for them.
std::string comparisons_text(const std::vector<HandComparison>& comparisons,
                             const ReadingUnits& units) {
  if (comparisons.empty()) return "";
  MarkdownTable table({"no.", "recognised", "faces", "by hand", "field, mean through the wall",
                       "with bending", "differs"});
  std::string below;
  int number = 0;
  for (const HandComparison& c : comparisons) {
    ++number;
    table.add({std::to_string(number), markdown_text(c.shape), faces_text(c.faces),
               pressure_text(c.hand_MPa, units), pressure_text(c.membrane_MPa, units),
               pressure_text(c.surface_MPa, units),
               percent_off(c) + ": " + (c.differs.empty() ? "agrees" : markdown_text(c.differs))});
    std::string inputs;
    for (const HandInput& input : c.inputs)
      inputs += (inputs.empty() ? "" : ", ") + input_text(input, units);
    std::string beside;
    for (const HandBeside& other : c.beside)
      beside += "Beside it " + other.words + ": " + other.formula + " = " +
                pressure_text(other.value_MPa, units) + ". ";
    below += list_item(std::to_string(number) + ".",
                       markdown_text(c.formula + "; " + inputs + ". " + beside + c.reason));
  }
  return wrapped(
             "What the part's shapes would give by hand under this pressure, and the same stress "
             "in this analysis, straight through the wall there:") +
         "\n" + table.text() + below + "\n";
}

std::string screw_forces_text(const std::vector<HandScrewForce>& forces,
                              const ReadingUnits& units) {
  std::vector<std::string> lines;
  for (const HandScrewForce& f : forces) {
    lines.push_back(fmt::format(
        "{}: by hand each of {} screws carries p pi / 4 G^2 / n = {} N of the fluid (p {}, G {} "
        "mm, the gasket's middle), {} N for each mm of their circle of {} mm, {} mm from screw to "
        "screw; this analysis gives it {}{} N on top of its preload of {} N{}. By hand the preload "
        "is used up at {}; with the thrust of this analysis at {}.",
        f.screws, f.count, number_text(f.hand_N), pressure_text(f.pressure_MPa, units),
        number_text(f.seal_diameter_mm), number_text(f.hand_N_per_mm), number_text(f.circle_mm),
        number_text(f.pitch_mm), f.solved ? "" : "0 to ", number_text(f.joint_N),
        number_text(f.preload_N), f.differs.empty() ? "" : ": " + f.differs,
        pressure_text(f.hand_opening_MPa, units),
        f.joint_opening_MPa > 0.0 ? pressure_text(f.joint_opening_MPa, units) : "-"));
  }
  return bullet_list(lines);
}

}  // namespace

std::string hand_calculation_section(const RunOutputs& outputs, const ReadingUnits& units) {
  if (!outputs.result.hand_calculation) return "";
  const HandCalculationResult& hand = *outputs.result.hand_calculation;
  std::string out =
      "## Beside the hand calculation\n\n" + wrapped(markdown_text(hand.sentence)) + "\n";
  MarkdownTable table({"way of reckoning", "factor"});
  table.add({"hand: " + markdown_text(hand.shape), number_text(hand.safety_factor)});
  table.add({"isotropic, build strength", factor_text(hand.isotropic_with_Z.value)});
  table.add({"this run", factor_text(outputs.result.factor.value)});
  out += table.text();
  out += wrapped("By hand: " + markdown_text(hand.formula) + " = " +
                 pressure_text(hand.stress_MPa, units) + ", against " +
                 markdown_text(hand.strength) + ".") +
         "\n";
  if (!hand.chain.empty()) out += "Step by step the factor changes:\n\n";
  for (const ChainStep& step : hand.chain) {
    out += list_item("-", "x **" + number_text(step.ratio) + "** from " + markdown_text(step.from) +
                              " to " + markdown_text(step.to));
  }
  return out + (hand.chain.empty() ? "" : "\n") + comparisons_text(hand.comparisons, units) +
         screw_forces_text(hand.screw_forces, units);
}

}  // namespace crossgrain
