// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "cases/judgement/factor_range.h"
#include "cases/judgement/verdict_sentence.h"
#include "tools/results/markdown.h"
#include "tools/results/number_text.h"
#include "tools/results/place_text.h"
#include "tools/results/plain_text.h"
#include "tools/results/summary_sections.h"
#include "tools/results/warnings.h"

namespace crossgrain {
namespace {

std::string verdict_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass:
      return "PASS";
    case Verdict::marginal:
      return "MARGINAL";
    case Verdict::fail:
      return "FAIL";
    default:
      return "NOT TRUSTED";
  }
}

/// "3.4 (2.6 to 4.4)"
std::string factor_with_range(const FactorRange& factor) {
  const std::string range = range_text(factor);
  return factor_text(factor.value) + (range.empty() ? "" : " (" + range + ")");
}

std::string stress_words(const ModeResult& mode, const ReadingUnits& units) {
  const Vector6d& s = mode.stress;
  if (mode.mode == FailureMode::yielding || mode.mode == FailureMode::brittle_tension) return "";
  return "Stress there: " + pressure_text(s[2], units) +
         " across the layers (tension is positive), " +
         pressure_text(std::hypot(s[3], s[4]), units) + " shear between them; in the layer " +
         pressure_text(s[0], units) + ", " + pressure_text(s[1], units) + " and " +
         pressure_text(s[5], units) + " shear.";
}

/// " ± 0.2"; " ± ?" where the mesh is too coarse to tell; nothing without a factor.
std::string own_mesh_error(const ModeResult& mode) {
  if (!mode.factor.value) return "";
  return mode.mesh_error ? " ± " + number_text(*mode.mesh_error, 2) : " ± ?";
}

/// The same for what governs a judgement, with its range.
std::string factor_with_own_error(const Judgement& judgement) {
  const std::string range = range_text(judgement.factor);
  return factor_text(judgement.factor.value) +
         (judgement.governing ? own_mesh_error(*judgement.governing) : "") +
         (range.empty() ? "" : " (" + range + ")");
}

/// "layers pull or slide apart: 3.4 (2.6 to 4.4), at (0, 5, 10) mm, face 1, flat; on pressure alone
/// 5", fit for Markdown.
std::string mode_line(const RunOutputs& outputs, const ModeResult& mode,
                      const std::vector<ModeResult>& on_pressure) {
  std::string line = std::string(words_for(mode.mode)) + ": **" + factor_text(mode.factor.value) +
                     own_mesh_error(mode) + "**";
  if (mode.factor.value) {
    const std::string range = range_text(mode.factor);
    const std::string where = place_text(outputs.meshed.geometry, outputs.features, mode);
    line += (range.empty() ? "" : " (" + range + ")") + ", at " + markdown_text(where);
  }
  for (const ModeResult& other : on_pressure) {
    if (other.mode == mode.mode)
      line += "; on pressure alone " + factor_text(other.factor.value) + own_mesh_error(other);
  }
  return line;
}

/// The factor on the scaling loads alone; "-" if no load scales.
std::string pressure_factor_text(const Judgement& judgement) {
  return judgement.applies ? factor_with_own_error(judgement) : "-";
}

std::string capital(std::string_view words) {
  std::string out(words);
  if (!out.empty()) out[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out[0])));
  return out;
}

std::string markdown_title(const CaseResult& load_case) {
  return markdown_text(title_of(load_case));
}

/// "3.4 ± 0.2 (mesh)"
std::string factor_with_mesh_error(const FactorRange& factor, const RunResult& result) {
  const auto& error = result.mesh_error;
  return factor_text(factor.value) +
         (error && factor.value ? " ± " + number_text(error->factor, 2) + " (mesh)" : "");
}

/// What the factor's stress is taken over, and whether a finer mesh would change it.
std::string governing_place_words(const RunOutputs& outputs, const GoverningPlace& place) {
  std::string words = "Stress counts as a bead of " + number_text(place.bead_width_mm) +
                      " mm feels it; the value at a node alone";
  words += place.raw ? " would give a factor of " + factor_text(place.raw->factor.value) + "."
                     : " finds no limit.";
  if (const auto edge = place.inner_edge ? place.inner_edge : place.other_edge)
    words +=
        " The place lies at " +
        markdown_text(edge_text(outputs.meshed.geometry, outputs.features, *edge)) +
        ": the finer the mesh, the larger the stress at a node of such an edge, and that value "
        "means nothing; what a bead feels has a limit, and parts do break there.";
  if (place.resolved_alike)
    words += " The mesh resolves a bead at another place of this kind; the factor there is " +
             factor_text(place.resolved_alike) + ".";
  if (!place.converged())
    words += " **Not converged:** elements there are " + number_text(place.mean_edge_mm) +
             " mm long, half a bead is " + number_text(0.5 * place.bead_width_mm) +
             " mm; a finer mesh may change the factor.";
  return wrapped(words) + "\n";
}

}  // namespace

std::string verdict_section(const RunOutputs& outputs) {
  const RunResult& result = outputs.result;
  std::string out = wrapped("# " + markdown_text(result.title), "", 1000) + "\n";
  const std::vector<std::string> warnings = all_warnings(outputs);
  const bool gas = outputs.case_file.conditions.medium == Medium::gas;
  if (gas) out += wrapped("> **" + markdown_text(warnings.front()) + "**", "> ") + "\n";
  out += wrapped("**" + verdict_words(result.verdict) + ".** " +
                 markdown_text(result.verdict_sentence)) +
         "\n";
  if (result.verdict == Verdict::not_trusted) {
    out += "Do not rely on any number below, because:\n\n" + bullet_list(result.distrust);
  }
  const FactorRange factor = worse_of(result.factor, result.pressure_factor);
  const std::string range = range_text(factor);
  out += wrapped("**Safety factor " + factor_with_mesh_error(factor, result) + "**" +
                 (range.empty() ? "" : ", range " + range) + "; asked for: " +
                 number_text(result.targets.safety_factor) + ". On all loads together " +
                 factor_text(result.factor.value) + "; on pressures and forces alone " +
                 factor_text(result.pressure_factor.value) + ".") +
         "\n";
  if (const std::string why = why_from_zero(result); !why.empty())
    out += wrapped(markdown_text(why)) + "\n";
  if (result.governing_place) out += governing_place_words(outputs, *result.governing_place);
  const std::vector<std::string> others(warnings.begin() + (gas ? 1 : 0), warnings.end());
  return out + bullet_list(others);
}

std::string pressure_section(const RunOutputs& outputs, const ReadingUnits& units) {
  const RunResult& result = outputs.result;
  if (!result.working_pressure_MPa) return "";
  MarkdownTable table({"pressure", "value"});
  table.add({"working", pressure_text(*result.working_pressure_MPa, units)});
  table.add({"allowable", pressure_text(result.allowable_pressure_MPa, units)});
  if (result.proof_pressure_MPa) {
    table.add({result.proof_breaks_limit ? "proof, **at most**" : "proof",
               pressure_text(*result.proof_pressure_MPa, units)});
  }
  std::string out = "## Pressure\n\n" + table.text();
  if (!result.allowable_limited_by.empty())
    out +=
        wrapped("What sets the allowable pressure: " + markdown_text(result.allowable_limited_by) +
                ".") +
        "\n";
  if (!result.proof_statement.empty()) out += wrapped(markdown_text(result.proof_statement)) + "\n";
  if (const auto& energy = result.stored_energy) {
    out += wrapped(
        fmt::format("Stored energy at working pressure: {} J (fluid {}, wall {}, air left in {}).",
                    number_text(energy->total_J()), number_text(energy->fluid_J),
                    number_text(energy->wall_J), number_text(energy->unbled_air_J)));
  } else {
    out += wrapped(
        "Stored energy: not known, for want of the cavity's volume. Choose the pressure's faces by "
        "the wetted surface to have it.");
  }
  if (result.cavity_volume_mm3) {
    out += "Cavity: " + number_text(*result.cavity_volume_mm3 * 1e-6) + " litre.\n";
  }
  out += "\n";
  if (result.buckling.applies) {
    const auto& critical = result.buckling.critical_pressure_MPa;
    out += wrapped(markdown_text(result.buckling.statement) +
                   (critical ? " It buckles at " + pressure_text(*critical, units) + "." : "")) +
           "\n";
  }
  return out;
}

std::string weak_places_section(const RunOutputs& outputs, const ReadingUnits& units) {
  const RunResult& result = outputs.result;
  if (result.cases.empty()) return "";
  const CaseResult& load_case = result.cases[governing_case_index(result)];
  std::string out = "## Where it would give way\n\n";
  if (const auto& first = result.governing) {
    out += wrapped("**" + capital(words_for(first->mode)) + "**, at " +
                   markdown_text(place_text(outputs.meshed.geometry, outputs.features, *first)) +
                   ". " + stress_words(*first, units)) +
           "\n";
  }
  out += wrapped("Every way of failing, in the load case \"" + markdown_title(load_case) + "\":") +
         "\n";
  std::vector<ModeResult> modes = load_case.all_loads.modes;
  const auto size = [](const ModeResult& mode) { return mode.factor.value.value_or(HUGE_VAL); };
  std::stable_sort(modes.begin(), modes.end(),
                   [&](const auto& a, const auto& b) { return size(a) < size(b); });
  const std::vector<ModeResult> none;
  const Judgement& scaling = load_case.scaling_loads;
  for (const ModeResult& mode : modes) {
    out += list_item("-", mode_line(outputs, mode, scaling.applies ? scaling.modes : none));
  }
  out += "\n";
  const auto left_out = [&](const std::vector<ModeResult>& apart, const std::string& why) {
    if (apart.empty()) return;
    out += wrapped("Left out of the factor, because " + why + ":") + "\n";
    for (const ModeResult& mode : apart)
      out += list_item(
          "-", std::string(words_for(mode.mode)) + ": " + factor_with_range(mode.factor) + ", at " +
                   markdown_text(place_text(outputs.meshed.geometry, outputs.features, mode)));
    out += "\n";
  };
  left_out(load_case.all_loads.near_artificial,
           "only the model's own supports or point loads make them");
  left_out(load_case.all_loads.under_heads,
           "the screws' heads crush there, how their force spreads is assumed, and the joint's "
           "pressure under them is judged instead");
  return out;
}

/// What became of the factor when the joint was followed; empty where it was not, or a warning says
/// why.
std::string followed_words(const CaseResult& load_case, std::size_t number) {
  if (!load_case.followed || !load_case.followed->unsettled.empty()) return "";
  const FollowedWay& followed = *load_case.followed;
  return wrapped("Case " + std::to_string(number) + ": the joint was solved at " +
                 number_text(followed.multiple) +
                 " times the pressures and forces, and the factor on these holds there; on a "
                 "straight line from what they do at once it would be " +
                 number_text(*followed.straight_line) + ".") +
         "\n";
}

std::string load_cases_section(const RunOutputs& outputs, const ReadingUnits& units) {
  if (outputs.result.cases.empty()) return "";
  std::string names;
  MarkdownTable table({"case", "factor", "on pressure alone", "allowable", "moves [mm]"});
  for (std::size_t i = 0; i < outputs.result.cases.size(); ++i) {
    const CaseResult& load_case = outputs.result.cases[i];
    const Judgement& all = load_case.all_loads;
    const std::string mode =
        all.governing ? "; " + std::string(words_for(all.governing->mode)) : "";
    const std::string number = std::to_string(i + 1);
    names += list_item(number + ".", markdown_title(load_case) + mode);
    table.add({number, factor_with_own_error(all), pressure_factor_text(load_case.scaling_loads),
               load_case.allowable_pressure_MPa
                   ? pressure_text(*load_case.allowable_pressure_MPa, units)
                   : "-",
               number_text(load_case.displacement_max_mm)});
  }
  std::string followed;
  for (std::size_t i = 0; i < outputs.result.cases.size(); ++i)
    followed += followed_words(outputs.result.cases[i], i + 1);
  return "## Load cases\n\n" + names + "\n" + table.text() +
         wrapped(
             "A factor multiplies the loads: all of them, or pressures and forces alone with "
             "preload, weight and temperature held as they are. ± is what the mesh may be off by, "
             "by the stress round the place alone (the safety factor's at the head: by the whole "
             "part); ± ? where elements beside an edge are too long to tell.") +
         "\n" + followed;
}

}  // namespace crossgrain
