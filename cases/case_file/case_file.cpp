// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_file.h"

#include "cases/case_file/case_checks.h"
#include "cases/case_file/case_sections.h"
#include "cases/case_file/case_table.h"
#include "cases/case_file/toml_reader.h"

namespace crossgrain {
namespace {

/// Every [[name]] of the file by `read`.
template <typename Spec>
std::vector<Spec> read_each(const CaseTable& top, std::string_view name,
                            Spec (*read)(const CaseTable&)) {
  std::vector<Spec> specs;
  for (const TomlValue* value : top.tables(name)) {
    specs.push_back(read(CaseTable(*value, name, top.problems())));
  }
  return specs;
}

/// The [name] of the file, or an empty one, whose keys then have their defaults.
const TomlValue& table_or_empty(const CaseTable& top, std::string_view name) {
  static const TomlValue empty = [] {
    TomlValue value;
    value.kind = TomlValue::Kind::table;
    return value;
  }();
  const auto tables = top.tables(name);
  return tables.empty() ? empty : *tables.front();
}

void read_bodies(const CaseTable& top, const std::filesystem::path& folder, CaseFile& result) {
  for (const TomlValue* value : top.tables("body")) {
    result.bodies.push_back(read_body(CaseTable(*value, "body", top.problems()), folder));
  }
}

void read_loads(const CaseTable& top, CaseFile& result) {
  result.pressures = read_each(top, "pressure", read_pressure);
  result.forces = read_each(top, "force", read_force);
  result.accelerations = read_each(top, "acceleration", read_acceleration);
  result.temperatures = read_each(top, "temperature_change", read_temperature_change);
  result.bolts = read_each(top, "bolt", read_bolt);
  result.contacts = read_each(top, "contact", read_contact);
  result.gaskets = read_each(top, "gasket", read_gasket);
  result.supports = read_each(top, "support", read_support);
  result.load_cases = read_each(top, "load_case", read_load_case);
  result.probes = read_each(top, "probe", read_probe);
}

void read_settings(const CaseTable& top, const std::filesystem::path& folder, CaseFile& result) {
  Problems& problems = top.problems();
  const auto table = [&](std::string_view name) {
    return CaseTable(table_or_empty(top, name), name, problems);
  };
  result.conditions = read_conditions(table("conditions"));
  result.targets = read_targets(table("targets"));
  result.mesh = read_mesh(table("mesh"), folder);
  result.refining = read_refining(table("mesh"));
  result.solve = read_solve(table("solve"));
  result.directions = read_directions(table("directions"));
  for (const TomlValue* value : top.tables("hand_calculation")) {
    result.hand_calculation =
        read_hand_calculation(CaseTable(*value, "hand_calculation", problems));
  }
}

}  // namespace

CaseFile read_case(const std::filesystem::path& file) {
  const TomlValue toml = read_toml(file);
  Problems problems(file.string());
  const CaseTable top(toml, "", problems);
  const std::filesystem::path folder = file.parent_path();

  CaseFile result;
  result.file = file;
  result.title = top.optional_text("title").value_or(file.stem().string());
  read_bodies(top, folder, result);
  read_loads(top, result);
  read_settings(top, folder, result);
  // What hangs together is checked only once every part is sound: else one slip is told twice.
  if (problems.none()) check_case(result, problems);
  problems.throw_if_any();
  return result;
}

CaseFile read_bodies_of_case(const std::filesystem::path& file) {
  const TomlValue toml = read_toml(file);
  Problems problems(file.string());
  CaseFile result;
  result.file = file;
  read_bodies(CaseTable(toml, "", problems), file.parent_path(), result);
  if (problems.none()) check_bodies(result, problems);
  problems.throw_if_any();
  return result;
}

}  // namespace crossgrain
