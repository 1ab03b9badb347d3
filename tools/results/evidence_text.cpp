// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "tools/results/markdown.h"
#include "tools/results/number_text.h"
#include "tools/results/place_text.h"
#include "tools/results/plain_text.h"
#include "tools/results/summary_sections.h"

namespace crossgrain {
namespace {

std::string vector_text(const Eigen::Vector3d& v, int digits = 3) {
  return "(" + number_text(v.x(), digits) + ", " + number_text(v.y(), digits) + ", " +
         number_text(v.z(), digits) + ")";
}

std::string percent(double fraction) { return fmt::format("{:.2g} %", fraction * 100.0); }

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

/// "1500 MPa (1200 to 1900)", in reading units if it is a pressure.
std::string assumed_value(const Assumption& assumption, const ReadingUnits& units) {
  const bool pressure = assumption.unit == "MPa";
  const double scale = pressure ? per_MPa(units.pressure) : 1.0;
  const std::string unit = pressure ? std::string(name_of(units.pressure)) : assumption.unit;
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
    out += list_item("-", markdown_text(a.quantity) + " = " + assumed_value(a, units) + ", " +
                              std::string(words_for(a.standing)) + ": " + markdown_text(a.rule));
  }
  return out + "\n";
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
  MarkdownTable chain({"from", "to", "factor changes by"});
  for (const ChainStep& step : hand.chain) {
    chain.add({markdown_text(step.from), markdown_text(step.to), "x " + number_text(step.ratio)});
  }
  return out + (chain.empty() ? "" : chain.text());
}

std::string forces_section(const RunOutputs& outputs) {
  const RunResult& result = outputs.result;
  MarkdownTable openings({"opening", "thrust [N]", "carried by"});
  for (const OpeningThrust& opening : result.thrusts) {
    openings.add({markdown_text(opening.opening + " (" + opening.pressure + ")"),
                  number_text(opening.thrust.norm()), markdown_text(opening.carried_by)});
  }
  MarkdownTable supports({"support", "force x, y, z [N]", "moment about the origin [N mm]"});
  for (const SupportReaction& reaction : result.reactions) {
    supports.add(
        {markdown_text(reaction.name), vector_text(reaction.force), vector_text(reaction.moment)});
  }
  if (openings.empty() && supports.empty()) return "";
  return "## Forces\n\n" +
         (openings.empty()
              ? ""
              : wrapped("Pressure pushes what closes an opening outwards. It must hold:") + "\n" +
                    openings.text()) +
         (supports.empty() ? "" : supports.text());
}

std::string probes_section(const RunOutputs& outputs, const ReadingUnits& units) {
  std::string out;
  const double scale = per_MPa(units.pressure);
  const std::string unit(name_of(units.pressure));
  for (const ProbeResult& probe : outputs.result.probes) {
    MarkdownTable table({"at [mm]", "moves x, y, z [mm]", "stress xx, yy, zz [" + unit + "]",
                         "xy, yz, xz [" + unit + "]"});
    for (std::size_t i = 0; i < probe.positions.size(); ++i) {
      const Vector6d s = probe.stress.at(i) * scale;
      table.add({position_text(probe.positions[i]), vector_text(probe.displacement.at(i)),
                 vector_text({s[0], s[1], s[2]}), vector_text({s[5], s[3], s[4]})});
    }
    out += wrapped("**" + markdown_text(probe.name) + "**, load case \"" +
                   markdown_text(probe.load_case) + "\":") +
           "\n" + table.text();
  }
  return out.empty() ? out : "## Values asked for\n\n" + out;
}

std::string trust_section(const RunOutputs& outputs) {
  const RunResult& result = outputs.result;
  const MeshReport& mesh = result.mesh_report;
  MarkdownTable table({"check", "found"});
  table.add({"forces in against forces out", percent(result.balance.force_error) + " apart"});
  table.add({"moments in against moments out", percent(result.balance.moment_error) + " apart"});
  table.add({"left over, balanced by inertia",
             percent(result.balance.carried_by_inertia) + " of the load"});
  table.add(
      {"equations solved to", fmt::format("{}, by {}", number_text(result.balance.residual, 2),
                                          result.solve_report.method)});
  table.add({"mesh volume against CAD", percent(result.balance.volume_error) + " apart"});
  table.add({"elements through the wall", fmt::format("{}, in a wall of {} mm", mesh.layers_min,
                                                      number_text(mesh.wall_min_mm))});
  table.add(
      {"size", fmt::format("{} tetrahedra, {} unknowns", outputs.meshed.mesh.tetrahedron_count(),
                           outputs.meshed.mesh.unknowns())});
  table.add({"curved elements straightened", std::to_string(mesh.curved_elements_straightened)});
  std::string out = "## How far to trust this\n\n" + table.text();
  if (!mesh.remedies.empty())
    out += "What it took to mesh the part:\n\n" + bullet_list(mesh.remedies);
  constexpr std::size_t places_shown = 5;
  std::vector<std::string> thin;
  for (const ThinPlace& place : mesh.thin_places) {
    if (thin.size() == places_shown) break;
    thin.push_back(fmt::format("{} of {} layers at {}, wall {} mm, {}", place.layers,
                               outputs.case_file.mesh.layers, position_text(place.position),
                               number_text(place.wall),
                               face_text(outputs.meshed.geometry, outputs.features, place.face)));
  }
  if (thin.empty()) return out;
  return out +
         fmt::format("Fewer elements through the wall than asked for in {} places, e.g.\n\n",
                     mesh.thin_places.size()) +
         bullet_list(thin);
}

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

std::string closing_section(const RunOutputs& outputs) {
  const RunResult& result = outputs.result;
  std::string out;
  if (!result.notes.empty()) out += "## Notes\n\n" + bullet_list(result.notes);
  if (!result.cautions.empty()) out += "## Cautions\n\n" + bullet_list(result.cautions);
  out += "## To run it again\n\n    crossgrain run " + shell_word(result.case_file) + "\n\n";
  return out + wrapped("Crossgrain " + markdown_text(result.program_version) +
                       ". The same for scripts: summary.json. To look at: fields.pvd, faces.pvd.");
}

}  // namespace crossgrain
