// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/toml_reader.h"

#include <toml++/toml.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace crossgrain {
namespace {

TomlValue plain(const toml::node& node);

TomlValue plain_table(const toml::table& table) {
  std::vector<std::pair<toml::source_position, TomlEntry>> found;
  for (const auto& [key, node] : table) {
    found.push_back({key.source().begin, {std::string(key.str()), plain(node)}});
  }
  // The library sorts keys by name; readers and messages want the file's order.
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  TomlValue value;
  value.kind = TomlValue::Kind::table;
  for (auto& [position, entry] : found) {
    // A [header] has no region of its own when only deeper headers create it.
    if (entry.value.line == 0) entry.value.line = static_cast<int>(position.line);
    value.entries.push_back(std::move(entry));
  }
  return value;
}

TomlValue plain(const toml::node& node) {
  using Kind = TomlValue::Kind;
  TomlValue value;
  if (const auto* table = node.as_table()) {
    value = plain_table(*table);
  } else if (const auto* array = node.as_array()) {
    value.kind = Kind::array;
    for (const toml::node& item : *array) value.items.push_back(plain(item));
  } else if (const auto* text = node.as_string()) {
    value.kind = Kind::text;
    value.text = text->get();
  } else if (const auto* integer = node.as_integer()) {
    value.kind = Kind::integer;
    value.integer = integer->get();
    value.number = static_cast<double>(integer->get());
  } else if (const auto* real = node.as_floating_point()) {
    value.kind = Kind::real;
    value.number = real->get();
  } else if (const auto* boolean = node.as_boolean()) {
    value.kind = Kind::boolean;
    value.boolean = boolean->get();
  } else {
    value.text = "a date or time";
  }
  value.line = static_cast<int>(node.source().begin.line);
  return value;
}

std::string contents(const std::filesystem::path& file) {
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) {
    throw std::invalid_argument(file.string() + ": no such case file; check the path, or write a " +
                                "first one with `crossgrain begin PART.step`");
  }
  std::ostringstream text;
  std::ifstream stream(file, std::ios::binary);
  // Reading a folder throws from within the library's buffer: asked for first.
  if (std::filesystem::is_directory(file, ignored) || !stream ||
      (stream.peek() != EOF && !(text << stream.rdbuf()))) {
    throw std::invalid_argument(file.string() +
                                ": cannot be read; give a case file that you may read");
  }
  return text.str();
}

}  // namespace

const TomlValue* TomlValue::find(std::string_view key) const {
  const auto it = std::find_if(entries.begin(), entries.end(),
                               [key](const TomlEntry& entry) { return entry.key == key; });
  return it == entries.end() ? nullptr : &it->value;
}

TomlValue read_toml(const std::filesystem::path& file) {
  const std::string text = contents(file);
  try {
    TomlValue table = plain_table(toml::parse(text, file.string()));
    table.line = 1;
    return table;
  } catch (const toml::parse_error& error) {
    std::ostringstream message;
    message << file.string() << ':' << error.source().begin.line
            << ": not valid TOML: " << error.description() << " (column "
            << error.source().begin.column << ")";
    throw std::invalid_argument(message.str());
  }
}

std::string written(const TomlValue& value) {
  std::ostringstream out;
  switch (value.kind) {
    case TomlValue::Kind::text:
      out << '"' << value.text << '"';
      break;
    case TomlValue::Kind::integer:
      out << value.integer;
      break;
    case TomlValue::Kind::real:
      out << value.number;
      break;
    case TomlValue::Kind::boolean:
      out << (value.boolean ? "true" : "false");
      break;
    case TomlValue::Kind::array:
      out << '[';
      for (std::size_t i = 0; i < value.items.size(); ++i) {
        out << (i ? ", " : "") << written(value.items[i]);
      }
      out << ']';
      break;
    case TomlValue::Kind::table:
      out << "{ ";
      for (std::size_t i = 0; i < value.entries.size(); ++i) {
        out << (i ? ", " : "") << value.entries[i].key << " = " << written(value.entries[i].value);
      }
      out << " }";
      break;
    case TomlValue::Kind::other:
      out << value.text;
      break;
  }
  return out.str();
}

std::string_view kind_in_words(TomlValue::Kind kind) {
  switch (kind) {
    case TomlValue::Kind::text:
      return "text";
    case TomlValue::Kind::integer:
      return "a whole number";
    case TomlValue::Kind::real:
      return "a number";
    case TomlValue::Kind::boolean:
      return "true or false";
    case TomlValue::Kind::array:
      return "a list";
    case TomlValue::Kind::table:
      return "a table";
    case TomlValue::Kind::other:
      return "a date or time";
  }
  return "";
}

}  // namespace crossgrain
