// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "materials/units/quantity.h"

namespace crossgrain {

/// What a key of the case file holds.
enum class KeyType {
  text,
  word,              ///< one of `words`
  quantity,          ///< text with a unit
  three_quantities,  ///< x, y, z with units
  two_points,        ///< two times x, y, z with units
  number,
  whole_number,
  whole_numbers,  ///< a list
  yes_no,
  direction,  ///< "+z" or [x, y, z]
  axis,       ///< a direction of which the sense does not matter; "z" will do
  faces,      ///< a choice of faces
  table,      ///< [name]
  tables,     ///< [[name]]
  texts_by_name,
  numbers_by_name,
  directions_by_name,
};

enum class Range { any, positive, not_negative, not_zero, at_least_one, share };

struct ValueForm {
  KeyType type;
  Dimension dimension = Dimension::fraction;  ///< of quantities
  Range range = Range::any;
  std::vector<std::string_view> words = {};
};

/// One key: how it is read, and what the reference says of it.
struct CaseKey {
  std::string_view name;
  ValueForm form;
  /// `required_key`; empty: optional; "(in words)": found elsewhere; else the literal default,
  /// which the parser reads as if it stood in the file.
  std::string_view fallback;
  std::string_view meaning;

  bool required() const;
  bool has_literal_default() const {
    return !fallback.empty() && fallback[0] != '(' && !required();
  }
};

/// One table of the case file. "" is the top level; "faces", "port" and "head" are written inside
/// others.
struct CaseKeyTable {
  std::string_view name;
  std::string_view heading;  ///< as it is written: "[[pressure]]"
  std::string_view meaning;
  std::vector<CaseKey> keys;

  /// The heading as messages name it: without the example of an inline table; "" at the top.
  std::string label() const;
};

/// Every table and key that the parser knows, in the order of the reference.
const std::vector<CaseKeyTable>& case_key_tables();

/// @param name  must exist.
const CaseKeyTable& case_key_table(std::string_view name);

/// A hint for an unknown key: the nearest known one of the table, or the table where it belongs;
/// else the keys there are.
std::string suggestion_for(std::string_view unknown, const CaseKeyTable& table);

}  // namespace crossgrain
