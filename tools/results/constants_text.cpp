// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/constants_words.h"
#include "tools/results/markdown.h"
#include "tools/results/plain_text.h"
#include "tools/results/summary_sections.h"

namespace crossgrain {

std::string constants_section(const RunOutputs& outputs, const ReadingUnits& units) {
  const auto words = constants_words(outputs.result, units);
  if (!words) return "";
  const std::string name = words->name.empty() ? "" : "**" + markdown_text(words->name) + "**";
  const std::string first =
      wrapped(markdown_text(words->before) + name + markdown_text(words->after));
  const std::string heading = "## Which constant to measure\n\n";
  if (words->rows.empty()) return heading + first + "\n";
  MarkdownTable table({"constant", "known as", "factor from end to end", "how"});
  for (const ConstantsWords::Row& row : words->rows)
    table.add({markdown_text(row.name), markdown_text(row.known), row.factor, row.how});
  return heading + first + "\n" + table.text() + wrapped(markdown_text(words->notes)) + "\n";
}

}  // namespace crossgrain
