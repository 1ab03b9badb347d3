// SPDX-License-Identifier: GPL-3.0-or-later
#include <map>

#include "cases/judgement/verdict_sentence.h"
#include "tools/results/markdown.h"
#include "tools/results/number_text.h"
#include "tools/results/plain_text.h"
#include "tools/results/summary_sections.h"

namespace crossgrain {
namespace {

/// "4", its place in the list of load cases; the title itself if it is not listed.
std::string case_number(const RunResult& result, const std::string& title) {
  for (std::size_t i = 0; i < result.cases.size(); ++i) {
    if (title_of(result.cases[i]) == title) return std::to_string(i + 1);
  }
  return markdown_text(title);
}

}  // namespace

std::string forces_section(const RunOutputs& outputs) {
  const RunResult& result = outputs.result;
  MarkdownTable openings({"opening", "thrust [N]", "carried by"});
  for (const OpeningThrust& opening : result.thrusts) {
    openings.add({markdown_text(opening.opening + " (" + opening.pressure + ")"),
                  number_text(opening.thrust.norm()), markdown_text(opening.carried_by)});
  }
  MarkdownTable supports(
      {"case", "support", "force x, y, z [N]", "moment about the origin [N mm]"});
  for (const SupportReaction& reaction : result.reactions) {
    supports.add({case_number(result, reaction.load_case), markdown_text(reaction.name),
                  vector_text(reaction.force), vector_text(reaction.moment)});
  }
  if (openings.empty() && supports.empty()) return "";
  return "## Forces\n\n" +
         (openings.empty()
              ? ""
              : wrapped("Pressure pushes what closes an opening outwards. It must hold:") + "\n" +
                    openings.text()) +
         (supports.empty() ? ""
                           : wrapped("What the supports push back with, in the load cases numbered "
                                     "above:") +
                                 "\n" + supports.text());
}

std::string probes_section(const RunOutputs& outputs, const ReadingUnits& units) {
  const RunResult& result = outputs.result;
  const double scale = per_MPa(units.pressure);
  const std::string unit(name_of(units.pressure));
  std::vector<std::string> names;
  std::map<std::string, MarkdownTable> tables;
  for (const ProbeResult& probe : result.probes) {
    const auto [table, is_new] = tables.try_emplace(
        probe.name,
        std::vector<std::string>{"case", "at [mm]", "moves x, y, z [mm]",
                                 "stress xx, yy, zz [" + unit + "]", "xy, yz, xz [" + unit + "]"});
    if (is_new) names.push_back(probe.name);
    for (std::size_t i = 0; i < probe.positions.size(); ++i) {
      const Vector6d s = probe.stress.at(i) * scale;
      table->second.add({case_number(result, probe.load_case), position_text(probe.positions[i]),
                         vector_text(probe.displacement.at(i)), vector_text({s[0], s[1], s[2]}),
                         vector_text({s[5], s[3], s[4]})});
    }
  }
  std::string out;
  for (const std::string& name : names)
    out += wrapped("**" + markdown_text(name) + "**, in the load cases numbered above:") + "\n" +
           tables.at(name).text();
  return out.empty() ? out : "## Values asked for\n\n" + out;
}

}  // namespace crossgrain
