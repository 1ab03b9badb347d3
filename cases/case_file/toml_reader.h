// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace crossgrain {

struct TomlEntry;

/// A TOML value without the library that read it, so that its headers are compiled in one file.
struct TomlValue {
  enum class Kind { text, integer, real, boolean, array, table, other };
  Kind kind = Kind::other;
  int line = 0;              ///< of the file, from 1
  std::string text;          ///< Kind::text; Kind::other: what it is ("a date")
  double number = 0.0;       ///< Kind::integer and Kind::real; may be NaN or infinite
  std::int64_t integer = 0;  ///< Kind::integer
  bool boolean = false;
  std::vector<TomlValue> items;
  std::vector<TomlEntry> entries;  ///< in the order of the file

  /// @return nullptr if the table has no such key.
  const TomlValue* find(std::string_view key) const;
};

struct TomlEntry {
  std::string key;
  TomlValue value;
};

/// Read a TOML file into a table.
/// @throws std::invalid_argument "case.toml:12: ..." if it cannot be read or is not TOML.
TomlValue read_toml(const std::filesystem::path& file);

/// The value on one line, as it would be written in TOML; for messages.
std::string written(const TomlValue& value);

/// "text", "a number", "a table", ...
std::string_view kind_in_words(TomlValue::Kind kind);

}  // namespace crossgrain
