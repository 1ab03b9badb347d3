// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/compare_text.h"

#include "tools/results/json_parts.h"
#include "tools/results/markdown.h"
#include "tools/results/plain_text.h"

namespace crossgrain {
namespace {

std::string pressure_or_dash(const std::optional<double>& pressure_MPa, const ReadingUnits& units) {
  return pressure_MPa ? pressure_text(*pressure_MPa, units) : "-";
}

std::string table(const std::string& head, const std::vector<ComparedValue>& rows,
                  const ReadingUnits& units) {
  MarkdownTable out({head, "first", "second", "change"});
  for (const ComparedValue& row : rows) {
    const bool pressure = row.first_MPa || row.second_MPa;
    out.add({markdown_text(row.quantity),
             pressure ? pressure_or_dash(row.first_MPa, units) : markdown_text(row.first),
             pressure ? pressure_or_dash(row.second_MPa, units) : markdown_text(row.second),
             row.change});
  }
  return out.text();
}

Json rows_json(const std::vector<ComparedValue>& rows) {
  Json out = Json::array();
  for (const ComparedValue& row : rows) {
    out.push_back({{"quantity", row.quantity},
                   {"first", row.first},
                   {"second", row.second},
                   {"change", row.change}});
  }
  return out;
}

}  // namespace

std::string comparison_text(const Comparison& comparison, const ReadingUnits& units) {
  std::string text = "# Two runs side by side\n\n";
  for (const std::string& sentence : comparison.sentences) text += wrapped(markdown_text(sentence));
  if (!comparison.sentences.empty()) text += "\n";
  if (!comparison.settings.empty()) {
    text += "## What differs in the case\n\n" + table("setting", comparison.settings, units);
  }
  return text + "## What comes out\n\n" + table("result", comparison.results, units);
}

std::string comparison_json(const Comparison& comparison) {
  Json document;
  document["sentences"] = comparison.sentences;
  document["settings"] = rows_json(comparison.settings);
  document["results"] = rows_json(comparison.results);
  return finished(std::move(document), NotANumber::refused);
}

}  // namespace crossgrain
