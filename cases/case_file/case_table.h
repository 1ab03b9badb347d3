// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cases/case_file/case_file.h"
#include "cases/case_file/case_keys.h"
#include "cases/case_file/problems.h"
#include "cases/case_file/toml_reader.h"

namespace crossgrain {

/// One table of a case file, read key by key as the key table says: type, unit, range, default.
/// What is wrong goes to `problems` and the getter returns nothing (or a stand-in, for keys that
/// are required or have a literal default); a caller need not care, for the case is refused in the
/// end. Quantities come in internal units.
class CaseTable {
 public:
  /// Unknown keys are reported here.
  /// @param name  of the key table: "pressure", "" for the top level.
  CaseTable(const TomlValue& value, std::string_view name, Problems& problems);

  Place place() const { return {problems_.file(), value_.line}; }
  bool has(std::string_view key) const { return value_.find(key) != nullptr; }
  Problems& problems() const { return problems_; }
  /// "[[pressure]] value", for messages.
  std::string where(std::string_view key) const;

  std::optional<std::string> optional_text(std::string_view key) const;
  std::optional<double> optional_quantity(std::string_view key) const;
  std::optional<double> optional_number(std::string_view key) const;
  std::optional<int> optional_whole(std::string_view key) const;
  std::optional<bool> optional_yes_no(std::string_view key) const;
  std::optional<Eigen::Vector3d> optional_three(std::string_view key) const;
  std::optional<Eigen::Vector3d> optional_direction(std::string_view key) const;  ///< unit
  std::optional<std::pair<Eigen::Vector3d, Eigen::Vector3d>> optional_line(
      std::string_view key) const;
  std::vector<int> whole_numbers(std::string_view key) const;

  // For keys that are required or have a literal default.
  std::string text(std::string_view key) const;  ///< also words
  double quantity(std::string_view key) const;
  double number(std::string_view key) const;
  int whole(std::string_view key) const;
  bool yes_no(std::string_view key) const;
  Eigen::Vector3d three(std::string_view key) const;
  Eigen::Vector3d direction(std::string_view key) const;

  std::map<std::string, std::string> texts_by_name(std::string_view key) const;
  std::map<std::string, double> numbers_by_name(std::string_view key) const;
  std::vector<std::pair<std::string, Eigen::Vector3d>> directions_by_name(
      std::string_view key) const;

  /// The value of a choice of faces; nullptr if absent (reported if required).
  const TomlValue* faces(std::string_view key) const;
  /// The table(s) under a key; none if absent (reported if required).
  std::vector<const TomlValue*> tables(std::string_view key) const;

  /// Report something about a key that is there: "place: [[pressure]] value = 0.4: what".
  void refuse(std::string_view key, const std::string& what) const;
  /// Report something about the table: "place: [[pressure]]: what".
  void refuse_table(const std::string& what) const;

 private:
  const CaseKey& row(std::string_view key) const;
  const TomlValue* find(std::string_view key) const;
  std::optional<double> quantity_of(const TomlValue& value, std::string_view key) const;
  std::optional<Eigen::Vector3d> three_of(const TomlValue& value, std::string_view key) const;
  std::optional<Eigen::Vector3d> direction_of(const TomlValue& value, std::string_view key) const;
  std::optional<Eigen::Vector3d> direction_from_text(const std::string& text,
                                                     std::string_view key) const;
  bool in_range(double value, std::string_view key) const;
  bool is(const TomlValue& value, TomlValue::Kind kind, std::string_view key,
          std::string_view wanted) const;

  const TomlValue& value_;
  const CaseKeyTable& table_;
  Problems& problems_;
};

}  // namespace crossgrain
