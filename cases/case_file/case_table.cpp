// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_table.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cassert>
#include <charconv>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace crossgrain {
namespace {

using Kind = TomlValue::Kind;

constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

/// A literal default of the key table, as if it stood in the file.
double number_in(std::string_view literal) {
  double value = no_number;
  [[maybe_unused]] const auto result =
      std::from_chars(literal.data(), literal.data() + literal.size(), value);
  assert(result.ec == std::errc() && result.ptr == literal.data() + literal.size());
  return value;
}

std::string first_unit(Dimension dimension) {
  const std::string units = accepted_units(dimension);
  return units.substr(0, units.find(','));
}

std::string_view range_in_words(Range range) {
  switch (range) {
    case Range::any:
      return "a finite number";
    case Range::positive:
      return "greater than zero";
    case Range::not_negative:
      return "zero or greater";
    case Range::not_zero:
      return "other than zero";
    case Range::at_least_one:
      return "1 or greater";
    case Range::share:
      return "from 0 to 1 (0 % to 100 %)";
  }
  return "";
}

bool fits(double value, Range range) {
  switch (range) {
    case Range::any:
      return std::isfinite(value);
    case Range::positive:
      return value > 0.0;
    case Range::not_negative:
      return value >= 0.0;
    case Range::not_zero:
      return value < 0.0 || value > 0.0;
    case Range::at_least_one:
      return value >= 1.0;
    case Range::share:
      return value >= 0.0 && value <= 1.0;
  }
  return false;
}

std::string listed(const std::vector<std::string_view>& words) {
  std::string list;
  for (const std::string_view word : words) {
    list += (list.empty() ? "\"" : ", \"") + std::string(word) + "\"";
  }
  return list;
}

}  // namespace

CaseTable::CaseTable(const TomlValue& value, std::string_view name, Problems& problems)
    : value_(value), table_(case_key_table(name)), problems_(problems) {
  for (const TomlEntry& entry : value_.entries) {
    const bool known = std::any_of(table_.keys.begin(), table_.keys.end(),
                                   [&](const CaseKey& key) { return key.name == entry.key; });
    if (known) continue;
    const bool is_table = name.empty() && entry.value.kind != Kind::text;
    problems_.add(entry.value.line, (name.empty() ? "" : table_.label() + ": ") + "unknown " +
                                        (is_table ? "table" : "key") + " '" + entry.key + "'; " +
                                        suggestion_for(entry.key, table_));
  }
}

std::string CaseTable::where(std::string_view key) const {
  return (table_.name.empty() ? "" : table_.label() + " ") + std::string(key);
}

void CaseTable::refuse(std::string_view key, const std::string& what) const {
  const TomlValue* value = value_.find(key);
  assert(value);
  problems_.add(value->line, where(key) + " = " + written(*value) + ": " + what);
}

void CaseTable::refuse_table(const std::string& what) const {
  problems_.add(value_.line, (table_.name.empty() ? "" : table_.label() + ": ") + what);
}

const CaseKey& CaseTable::row(std::string_view key) const {
  const auto it = std::find_if(table_.keys.begin(), table_.keys.end(),
                               [key](const CaseKey& row) { return row.name == key; });
  assert(it != table_.keys.end() && "the parser asks for a key that the table lacks");
  return *it;
}

const TomlValue* CaseTable::find(std::string_view key) const {
  const TomlValue* value = value_.find(key);
  if (!value && row(key).required()) {
    refuse_table("the key '" + std::string(key) +
                 "' is missing; it says: " + std::string(row(key).meaning));
  }
  return value;
}

bool CaseTable::is(const TomlValue& value, Kind kind, std::string_view key,
                   std::string_view wanted) const {
  if (value.kind == kind) return true;
  refuse(key,
         "this is " + std::string(kind_in_words(value.kind)) + "; write " + std::string(wanted));
  return false;
}

bool CaseTable::in_range(double value, std::string_view key) const {
  // fits() comes second: it alone would let infinity pass where only a lower bound is set.
  if (std::isfinite(value) && fits(value, row(key).form.range)) return true;
  refuse(key, "must be " + std::string(std::isfinite(value) ? range_in_words(row(key).form.range)
                                                            : "a finite number"));
  return false;
}

std::optional<double> CaseTable::quantity_of(const TomlValue& value, std::string_view key) const {
  const Dimension dimension = row(key).form.dimension;
  const bool bare = value.kind == Kind::real || value.kind == Kind::integer;
  if (bare && dimension == Dimension::fraction) return value.number;
  if (bare) {
    refuse(key, "a bare number has no unit; write text with the unit, such as \"" + written(value) +
                    " " + first_unit(dimension) + "\" (" + accepted_units(dimension) + ")");
    return std::nullopt;
  }
  if (!is(value, Kind::text, key, "text with a unit (" + accepted_units(dimension) + ")")) {
    return std::nullopt;
  }
  try {
    return parse_quantity(value.text, dimension);
  } catch (const std::invalid_argument& error) {
    // The message quotes the text itself.
    problems_.add(value.line, where(key) + ": " + error.what());
    return std::nullopt;
  }
}

std::optional<double> CaseTable::optional_quantity(std::string_view key) const {
  assert(row(key).form.type == KeyType::quantity);
  const TomlValue* value = find(key);
  if (!value) {
    if (!row(key).has_literal_default()) return std::nullopt;
    return parse_quantity(row(key).fallback, row(key).form.dimension);
  }
  const std::optional<double> quantity = quantity_of(*value, key);
  return quantity && in_range(*quantity, key) ? quantity : std::nullopt;
}

std::optional<std::string> CaseTable::optional_text(std::string_view key) const {
  const ValueForm& form = row(key).form;
  assert(form.type == KeyType::text || form.type == KeyType::word);
  const TomlValue* value = find(key);
  if (!value) {
    if (!row(key).has_literal_default()) return std::nullopt;
    return std::string(row(key).fallback);
  }
  const bool word = form.type == KeyType::word;
  if (!is(*value, Kind::text, key, word ? "one of " + listed(form.words) : "text in quotes")) {
    return std::nullopt;
  }
  if (!word && value->text.find_first_not_of(" \t\n") == std::string::npos) {
    refuse(key, "empty text; give it, or leave the key out if it is optional");
    return std::nullopt;
  }
  if (word && std::find(form.words.begin(), form.words.end(), value->text) == form.words.end()) {
    refuse(key, "unknown word; write one of " + listed(form.words));
    return std::nullopt;
  }
  return value->text;
}

std::optional<double> CaseTable::optional_number(std::string_view key) const {
  assert(row(key).form.type == KeyType::number);
  const TomlValue* value = find(key);
  if (!value) {
    if (!row(key).has_literal_default()) return std::nullopt;
    return number_in(row(key).fallback);
  }
  if (value->kind != Kind::integer && !is(*value, Kind::real, key, "a number without quotes")) {
    return std::nullopt;
  }
  return in_range(value->number, key) ? std::optional(value->number) : std::nullopt;
}

std::optional<int> CaseTable::optional_whole(std::string_view key) const {
  assert(row(key).form.type == KeyType::whole_number);
  const TomlValue* value = find(key);
  if (!value) {
    if (!row(key).has_literal_default()) return std::nullopt;
    return static_cast<int>(number_in(row(key).fallback));
  }
  if (!is(*value, Kind::integer, key, "a whole number without quotes")) return std::nullopt;
  if (!in_range(value->number, key)) return std::nullopt;
  if (value->number > 1e6) {
    refuse(key, "too large; at most 1000000");
    return std::nullopt;
  }
  return static_cast<int>(value->integer);
}

std::optional<bool> CaseTable::optional_yes_no(std::string_view key) const {
  assert(row(key).form.type == KeyType::yes_no);
  const TomlValue* value = find(key);
  if (!value) {
    if (!row(key).has_literal_default()) return std::nullopt;
    return row(key).fallback == "true";
  }
  if (!is(*value, Kind::boolean, key, "true or false without quotes")) return std::nullopt;
  return value->boolean;
}

std::optional<Eigen::Vector3d> CaseTable::three_of(const TomlValue& value,
                                                   std::string_view key) const {
  const std::string unit = first_unit(row(key).form.dimension);
  if (value.kind != Kind::array || value.items.size() != 3) {
    refuse(key, "three quantities are due, x, y and z; write [\"0 " + unit + "\", \"0 " + unit +
                    "\", \"1 " + unit + "\"]");
    return std::nullopt;
  }
  Eigen::Vector3d three;
  for (int i = 0; i < 3; ++i) {
    const std::optional<double> quantity = quantity_of(value.items[i], key);
    if (!quantity) return std::nullopt;
    three[i] = *quantity;
  }
  if (!three.allFinite()) {
    refuse(key, "must be finite numbers");
    return std::nullopt;
  }
  return three;
}

std::optional<Eigen::Vector3d> CaseTable::optional_three(std::string_view key) const {
  assert(row(key).form.type == KeyType::three_quantities);
  const TomlValue* value = find(key);
  if (!value) return std::nullopt;
  const auto three = three_of(*value, key);
  if (three && row(key).form.range == Range::not_zero && !(three->norm() > 0.0)) {
    refuse(key, "all three are zero; leave the table out or give a value");
    return std::nullopt;
  }
  return three;
}

std::optional<std::pair<Eigen::Vector3d, Eigen::Vector3d>> CaseTable::optional_line(
    std::string_view key) const {
  assert(row(key).form.type == KeyType::two_points);
  const TomlValue* value = find(key);
  if (!value) return std::nullopt;
  if (value->kind != Kind::array || value->items.size() != 2) {
    refuse(key,
           "two points are due; write [[\"0 mm\", \"0 mm\", \"0 mm\"], [\"0 mm\", \"0 mm\", "
           "\"10 mm\"]]");
    return std::nullopt;
  }
  const auto from = three_of(value->items[0], key);
  const auto to = three_of(value->items[1], key);
  if (!from || !to) return std::nullopt;
  if (!((*to - *from).norm() > 0.0)) {
    refuse(key, "the line has no length; give two different points, or use point");
    return std::nullopt;
  }
  return std::pair(*from, *to);
}

std::optional<Eigen::Vector3d> CaseTable::direction_from_text(const std::string& text,
                                                              std::string_view key) const {
  const bool senseless = row(key).form.type == KeyType::axis;
  const bool is_signed = text.size() == 2 && (text[0] == '+' || text[0] == '-');
  if (is_signed || (senseless && text.size() == 1)) {
    const auto axis = std::string_view("xyz").find(text.back());
    if (axis != std::string_view::npos) {
      return (text[0] == '-' ? -1.0 : 1.0) * Eigen::Vector3d::Unit(static_cast<int>(axis));
    }
  }
  const bool lacks_sign = text == "x" || text == "y" || text == "z";
  refuse(key, lacks_sign ? "which way? write \"+" + text + "\" or \"-" + text + "\""
                         : "not a direction; write \"+x\", \"-x\", \"+y\", \"-y\", \"+z\", "
                           "\"-z\" or three numbers [x, y, z]");
  return std::nullopt;
}

std::optional<Eigen::Vector3d> CaseTable::direction_of(const TomlValue& value,
                                                       std::string_view key) const {
  if (value.kind == Kind::text) return direction_from_text(value.text, key);
  Eigen::Vector3d direction;
  bool numbers = value.kind == Kind::array && value.items.size() == 3;
  for (int i = 0; numbers && i < 3; ++i) {
    numbers = value.items[i].kind == Kind::integer || value.items[i].kind == Kind::real;
    direction[i] = value.items[i].number;
  }
  if (!numbers) {
    refuse(key, "not a direction; write \"+z\", \"-x\" or three numbers [x, y, z]");
    return std::nullopt;
  }
  if (!direction.allFinite()) {
    refuse(key, "must be finite numbers");
    return std::nullopt;
  }
  // stableNormalized would hide the zero; dividing by the largest first keeps 1e-200 from it.
  const double largest = direction.cwiseAbs().maxCoeff();
  if (!(largest > 0.0)) {
    refuse(key, "a direction of zero length; write which way, such as \"+z\" or [0, 0, 1]");
    return std::nullopt;
  }
  return (direction / largest).normalized();
}

std::optional<Eigen::Vector3d> CaseTable::optional_direction(std::string_view key) const {
  assert(row(key).form.type == KeyType::direction || row(key).form.type == KeyType::axis);
  const TomlValue* value = find(key);
  return value ? direction_of(*value, key) : std::nullopt;
}

std::vector<int> CaseTable::whole_numbers(std::string_view key) const {
  assert(row(key).form.type == KeyType::whole_numbers);
  const TomlValue* value = find(key);
  if (!value) return {};
  std::vector<int> numbers;
  bool sound = value->kind == Kind::array && !value->items.empty();
  for (const TomlValue& item : value->items) {
    sound = sound && item.kind == Kind::integer && item.number >= 1 && item.number < 1e9;
    if (sound) numbers.push_back(static_cast<int>(item.integer));
  }
  if (!sound) refuse(key, "a list of whole numbers from 1 is due; write [3, 4]");
  return numbers;
}

std::string CaseTable::text(std::string_view key) const { return optional_text(key).value_or(""); }
double CaseTable::quantity(std::string_view key) const {
  return optional_quantity(key).value_or(no_number);
}
double CaseTable::number(std::string_view key) const {
  return optional_number(key).value_or(no_number);
}
int CaseTable::whole(std::string_view key) const { return optional_whole(key).value_or(1); }
bool CaseTable::yes_no(std::string_view key) const { return optional_yes_no(key).value_or(false); }
Eigen::Vector3d CaseTable::three(std::string_view key) const {
  return optional_three(key).value_or(Eigen::Vector3d::Zero());
}
Eigen::Vector3d CaseTable::direction(std::string_view key) const {
  return optional_direction(key).value_or(Eigen::Vector3d::UnitZ());
}

std::map<std::string, std::string> CaseTable::texts_by_name(std::string_view key) const {
  assert(row(key).form.type == KeyType::texts_by_name);
  const TomlValue* value = find(key);
  if (!value || !is(*value, Kind::table, key, "{ name = \"text\" }")) return {};
  std::map<std::string, std::string> texts;
  for (const TomlEntry& entry : value->entries) {
    if (entry.value.kind != Kind::text) {
      refuse(key, "'" + entry.key + "' must be text; write { " + entry.key + " = \"text\" }");
      continue;
    }
    texts[entry.key] = entry.value.text;
  }
  return texts;
}

std::map<std::string, double> CaseTable::numbers_by_name(std::string_view key) const {
  assert(row(key).form.type == KeyType::numbers_by_name);
  const TomlValue* value = find(key);
  if (!value || !is(*value, Kind::table, key, "{ \"a load's name\" = 1.0 }")) return {};
  std::map<std::string, double> numbers;
  for (const TomlEntry& entry : value->entries) {
    const bool number = entry.value.kind == Kind::integer || entry.value.kind == Kind::real;
    if (!number || !std::isfinite(entry.value.number)) {
      refuse(key, "'" + entry.key + "' must be a finite number without quotes");
      continue;
    }
    numbers[entry.key] = entry.value.number;
  }
  return numbers;
}

std::vector<std::pair<std::string, Eigen::Vector3d>> CaseTable::directions_by_name(
    std::string_view key) const {
  assert(row(key).form.type == KeyType::directions_by_name);
  const TomlValue* value = find(key);
  if (!value || !is(*value, Kind::table, key, "{ upright = \"+z\", \"on edge\" = [1, 0, 0] }")) {
    return {};
  }
  std::vector<std::pair<std::string, Eigen::Vector3d>> directions;
  for (const TomlEntry& entry : value->entries) {
    if (const auto direction = direction_of(entry.value, key)) {
      directions.emplace_back(entry.key, *direction);
    }
  }
  return directions;
}

const TomlValue* CaseTable::faces(std::string_view key) const {
  assert(row(key).form.type == KeyType::faces);
  return find(key);
}

std::vector<const TomlValue*> CaseTable::tables(std::string_view key) const {
  const KeyType type = row(key).form.type;
  assert(type == KeyType::table || type == KeyType::tables);
  const TomlValue* value = find(key);
  if (!value) return {};
  const bool top = table_.name.empty();
  if (type == KeyType::table) {
    const std::string form =
        top ? std::string("[").append(key) + "] and its keys below" : "{ key = value }";
    if (!is(*value, Kind::table, key, form)) return {};
    return {value};
  }
  std::vector<const TomlValue*> found;
  bool sound = value->kind == Kind::array;
  for (const TomlValue& item : value->items) {
    sound = sound && item.kind == Kind::table;
    found.push_back(&item);
  }
  if (sound) return found;
  refuse(key, top ? "several of these may stand in a case; write [[" + std::string(key) +
                        "]] with double brackets"
                  : "a list of tables is due; write [{ ... }, { ... }]");
  return {};
}

}  // namespace crossgrain
