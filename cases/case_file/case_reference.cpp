// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_file.h"
#include "cases/case_file/case_keys.h"

namespace crossgrain {
namespace {

std::string words_in_code(const std::vector<std::string_view>& words) {
  std::string list;
  for (const std::string_view word : words) {
    list += (list.empty() ? "`\"" : ", `\"") + std::string(word) + "\"`";
  }
  return list;
}

std::string_view range_in_words(Range range) {
  switch (range) {
    case Range::any:
      return "";
    case Range::positive:
      return ", greater than 0";
    case Range::not_negative:
      return ", 0 or greater";
    case Range::not_zero:
      return ", not 0";
    case Range::at_least_one:
      return ", 1 or greater";
    case Range::share:
      return ", from 0 to 1";
  }
  return "";
}

std::string units_in_words(Dimension dimension) { return "unit: " + accepted_units(dimension); }

/// What is written after the equals sign.
std::string value_in_words(const ValueForm& form) {
  const std::string range(range_in_words(form.range));
  switch (form.type) {
    case KeyType::text:
      return "text";
    case KeyType::word:
      return words_in_code(form.words);
    case KeyType::quantity:
      return "text with a " + units_in_words(form.dimension) + range;
    case KeyType::three_quantities:
      return "`[x, y, z]`, each with a " + units_in_words(form.dimension) + range;
    case KeyType::two_points:
      return "`[[x, y, z], [x, y, z]]`, each with a " + units_in_words(form.dimension);
    case KeyType::number:
      return "number" + range;
    case KeyType::whole_number:
      return "whole number" + range;
    case KeyType::whole_numbers:
      return "`[1, 2, ...]`";
    case KeyType::yes_no:
      return "`true` or `false`";
    case KeyType::direction:
      return "`\"+z\"`, `\"-x\"`, ... or `[x, y, z]`";
    case KeyType::axis:
      return "`\"z\"` or `[x, y, z]`, either sense";
    case KeyType::faces:
      return "a choice of faces";
    case KeyType::table:
      return "a table";
    case KeyType::tables:
      return "tables, any number";
    case KeyType::texts_by_name:
      return "`{ name = \"text\", ... }`";
    case KeyType::numbers_by_name:
      return "`{ \"a name\" = 1.0, ... }`";
    case KeyType::directions_by_name:
      return "`{ \"a name\" = \"+z\", ... }`";
  }
  return "";
}

std::string default_in_words(const CaseKey& key) {
  if (key.required()) return "**required**";
  if (key.fallback.empty()) return "";
  if (!key.has_literal_default()) {
    return std::string(key.fallback.substr(1, key.fallback.size() - 2));
  }
  return std::string("`").append(key.fallback) + "`";
}

}  // namespace

std::string case_key_reference() {
  std::string text = "## Every table and key\n";
  for (const CaseKeyTable& table : case_key_tables()) {
    text += "\n### " +
            (table.name.empty() ? std::string(table.heading)
                                : std::string("`").append(table.heading) + "`") +
            "\n";
    if (!table.meaning.empty()) text += std::string(table.meaning) + "\n";
    text += "\n| key | value | default | meaning |\n|---|---|---|---|\n";
    for (const CaseKey& key : table.keys) {
      text += std::string("| `").append(key.name) + "` | " + value_in_words(key.form) + " | " +
              default_in_words(key) + " | " + std::string(key.meaning) + " |\n";
    }
  }
  return text;
}

}  // namespace crossgrain
