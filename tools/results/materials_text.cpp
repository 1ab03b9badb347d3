// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/markdown.h"
#include "tools/results/number_text.h"
#include "tools/results/plain_text.h"
#include "tools/results/summary_sections.h"

namespace crossgrain {
namespace {

std::string_view words_for(Standing standing) {
  switch (standing) {
    case Standing::measured:
      return "measured";
    case Standing::data_sheet:
      return "data sheet";
    case Standing::memory:
      return "from memory";
    default:
      return "estimated";
  }
}

/// "1500 MPa (1200 to 1900)"
std::string assumed_value(const Assumption& assumption, const ReadingUnits& units) {
  const auto [scale, unit] = unit_for_reading(assumption.unit, units);
  return number_text(assumption.value * scale) +
         (unit.empty() || unit == "-" ? "" : " " + markdown_text(unit)) + " (" +
         number_text(assumption.low * scale) + " to " + number_text(assumption.high * scale) + ")";
}

std::string strengths_sentence(const Strength& strength, const ReadingUnits& units) {
  if (const auto* s = std::get_if<LayeredStrength>(&strength)) {
    return "in the layer " + pressure_text(s->Xt, units) + " tension, " +
           pressure_text(s->Xc, units) + " compression; across the layers " +
           pressure_text(s->Zt, units) + " tension, " + pressure_text(s->Zc, units) +
           " compression; shear between layers " + pressure_text(s->Sz, units);
  }
  if (const auto* s = std::get_if<DuctileStrength>(&strength))
    return "yield " + pressure_text(s->yield, units);
  return "tension " + pressure_text(std::get<BrittleStrength>(strength).tensile, units);
}

std::string material_text(const MaterialAtConditions& material, const ReadingUnits& units) {
  std::string out = wrapped("Strength at these conditions: " +
                            strengths_sentence(material.nominal.strength, units) + ".") +
                    "\n";
  for (const KnockDown& k : material.knock_downs) {
    out += list_item("-", markdown_text(k.cause) + ": " + markdown_text(k.applies) + " x **" +
                              number_text(k.value) + "** (" + number_text(k.low) + " to " +
                              number_text(k.high) + "); " + markdown_text(k.rule));
  }
  if (!material.knock_downs.empty()) out += "\n";
  if (material.assumptions.empty()) return out;
  out += "Assumed, because the card does not say or says it on weak authority:\n\n";
  for (const Assumption& a : material.assumptions) {
    // A rule may say of itself that it is from memory: once is enough.
    const std::string standing(words_for(a.standing));
    const bool said = a.rule.find(standing) != std::string::npos;
    out += list_item("-", markdown_text(a.quantity) + " = " + assumed_value(a, units) + ", " +
                              (said ? "" : standing + ": ") + markdown_text(a.rule));
  }
  return out + "\n";
}

}  // namespace

std::string materials_section(const RunOutputs& outputs, const ReadingUnits& units) {
  const RunResult& result = outputs.result;
  std::string out = "## Bodies and materials\n\n";
  for (std::size_t i = 0; i < result.body_names.size(); ++i) {
    out += wrapped("**" + markdown_text(result.body_names[i]) +
                   "**: " + markdown_text(result.materials.at(i).title) + " (" +
                   markdown_text(result.materials[i].card) + "), printed along " +
                   direction_text(result.print_directions.at(i)) + ", " +
                   number_text(result.body_mass_g.at(i)) + " g.");
    // Bodies of one material say the same about it: once is enough.
    bool said = false;
    for (std::size_t j = 0; j < i; ++j)
      said = said || result.materials[j].card == result.materials[i].card;
    out += said ? "\n" : material_text(result.materials[i], units);
  }
  return out;
}

}  // namespace crossgrain
