// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/directions_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "tools/results/atomic_file.h"
#include "tools/results/direction_map_text.h"
#include "tools/results/direction_map_vtk.h"
#include "tools/results/directions_page.h"
#include "tools/results/json_parts.h"
#include "tools/results/markdown.h"
#include "tools/results/number_text.h"
#include "tools/results/place_text.h"
#include "tools/results/plain_text.h"

namespace crossgrain {
namespace {

double strength_of(const DirectionRow& row) { return row.factor.value.value_or(HUGE_VAL); }

std::vector<DirectionRow> strongest_first(std::vector<DirectionRow> rows) {
  std::stable_sort(rows.begin(), rows.end(), [](const DirectionRow& a, const DirectionRow& b) {
    return strength_of(a) > strength_of(b);
  });
  return rows;
}

std::string strength_table(const std::vector<DirectionRow>& rows, const ReadingUnits& units) {
  MarkdownTable table({"print direction", "up", "factor", "range", "allowable", "moves [mm]"});
  for (const DirectionRow& row : rows) {
    table.add({markdown_text(row.name),
               row.each_its_own ? "each its own" : direction_text(row.direction),
               factor_text(row.factor.value), range_text(row.factor),
               row.allowable_pressure_MPa ? pressure_text(*row.allowable_pressure_MPa, units) : "-",
               number_text(row.displacement_max_mm)});
  }
  return table.text();
}

std::string weak_places(const DirectionOutputs& outputs, const std::vector<DirectionRow>& rows) {
  std::string out;
  for (const DirectionRow& row : rows) {
    if (!row.governing || !row.factor.value) continue;
    const std::string where = place_text(outputs.geometry, outputs.features, *row.governing);
    out += list_item("-", "**" + markdown_text(row.name) +
                              "**: " + std::string(words_for(row.governing->mode)) + ", at " +
                              markdown_text(where) + "; load case \"" +
                              markdown_text(row.governing_case) + "\"");
  }
  return out.empty() ? out : "Where each would give way first:\n\n" + out + "\n";
}

/// What a row of several bodies says, and what it does not.
std::string several_bodies(const DirectionOutputs& outputs) {
  const CaseFile& case_file = outputs.case_file;
  if (case_file.bodies.size() < 2) return "";
  std::string words =
      "A direction is that of every body here, each standing on a plate of its own.";
  if (case_file.joined())
    words +=
        " The joint was solved anew for each, and what the parts bear of it is in the factor. The "
        "joint itself, its seal and its screws, is judged by `crossgrain run`: give the bodies "
        "their directions and run it.";
  return wrapped(words) + "\n";
}

std::string printing_table(const std::vector<DirectionRow>& rows) {
  MarkdownTable table({"print direction", "height [mm]", "shadow [mm2]", "on the plate [mm2]",
                       "overhang [mm2]", "of it inside [mm2]"});
  for (const DirectionRow& row : rows) {
    table.add({markdown_text(row.name), number_text(row.height_mm), number_text(row.footprint_mm2),
               number_text(row.plate_contact_mm2), number_text(row.overhang_mm2),
               number_text(row.trapped_overhang_mm2)});
  }
  return table.text();
}

Json row_json(const DirectionRow& row) {
  Json out = {{"name", row.name},
              {"direction", row.each_its_own ? Json(nullptr) : json_vector(row.direction)}};
  out["safety_factor"] = json_range(row.factor);
  out["governing"] = row.governing ? json_mode(*row.governing) : Json(nullptr);
  if (row.governing) out["governing"].erase("mesh_error");  // not estimated for single directions
  out["governing_case"] = row.governing_case;
  out["allowable_pressure_MPa"] = json_number(row.allowable_pressure_MPa);
  out["displacement_max_mm"] = row.displacement_max_mm;
  out["load_cases"] = Json::array();
  for (const DirectionCase& of_case : row.cases)
    out["load_cases"].push_back(
        {{"load_case", of_case.load_case},
         {"safety_factor", json_range(of_case.factor)},
         {"pressure_factor",
          of_case.pressure_factor ? json_range(*of_case.pressure_factor) : Json(nullptr)}});
  out["height_mm"] = row.height_mm;
  out["footprint_mm2"] = row.footprint_mm2;
  out["plate_contact_mm2"] = row.plate_contact_mm2;
  out["overhang_mm2"] = row.overhang_mm2;
  out["trapped_overhang_mm2"] = row.trapped_overhang_mm2;
  return out;
}

/// All digits, so that nothing is lost on the way into a spreadsheet; empty if absent.
std::string csv_number(const std::optional<double>& value) {
  return value && std::isfinite(*value) ? fmt::format("{}", *value) : "";
}

}  // namespace

std::string directions_markdown(const DirectionOutputs& outputs, const ReadingUnits& units) {
  const std::vector<DirectionRow> rows = strongest_first(outputs.rows);
  const double angle = outputs.case_file.directions.overhang_angle * 180.0 / M_PI;
  return "# Print directions: " + markdown_text(outputs.case_file.title) + "\n\n" +
         wrapped(
             "Strongest first. \"Up\" is the build direction, from the plate to the nozzle, in the "
             "STEP file's "
             "axes. The factor asked for is " +
             number_text(outputs.case_file.targets.safety_factor) + ".") +
         "\n" + strength_table(rows, units) + weak_places(outputs, rows) + several_bodies(outputs) +
         "## Printing\n\n" + printing_table(rows) +
         wrapped("Overhang: surface that looks down at less than " + number_text(angle) +
                 " degrees from horizontal, what lies on the plate left out. Inside: in cavities, "
                 "where supports are "
                 "hard or impossible to remove.") +
         (outputs.map ? "\n" + direction_map_markdown(outputs, *outputs.map) : "");
}

std::string directions_json(const DirectionOutputs& outputs) {
  Json document;
  document["schema_version"] = 1;
  document["title"] = outputs.case_file.title;
  document["target_safety_factor"] = outputs.case_file.targets.safety_factor;
  document["overhang_angle_deg"] = outputs.case_file.directions.overhang_angle * 180.0 / M_PI;
  document["directions"] = Json::array();
  for (const DirectionRow& row : outputs.rows) document["directions"].push_back(row_json(row));
  if (outputs.map) document["map"] = direction_map_json(*outputs.map);
  return finished(std::move(document), NotANumber::refused);
}

std::string directions_csv(const DirectionOutputs& outputs) {
  std::string out =
      "name,x,y,z,safety_factor,safety_factor_low,safety_factor_high,mode,governing_case,allowable_"
      "pressure_MPa,"
      "displacement_max_mm,height_mm,footprint_mm2,plate_contact_mm2,overhang_mm2,trapped_overhang_"
      "mm2\r\n";
  for (const DirectionRow& row : outputs.rows) {
    out += csv_field(row.name);
    for (const double x : row.direction) out += "," + (row.each_its_own ? "" : csv_number(x));
    for (const auto& factor : {row.factor.value, row.factor.low, row.factor.high})
      out += "," + csv_number(factor);
    out += "," + (row.governing ? std::string(name_of(row.governing->mode)) : "") + "," +
           csv_field(row.governing_case);
    for (const auto& value : {row.allowable_pressure_MPa, std::optional(row.displacement_max_mm),
                              std::optional(row.height_mm), std::optional(row.footprint_mm2),
                              std::optional(row.plate_contact_mm2), std::optional(row.overhang_mm2),
                              std::optional(row.trapped_overhang_mm2)}) {
      out += "," + csv_number(value);
    }
    out += "\r\n";
  }
  return out;
}

void write_directions(const DirectionOutputs& outputs, const ReadingUnits& units,
                      const std::filesystem::path& directory) {
  const std::string json = directions_json(outputs);
  StagedFiles staged(directory);
  staged.add_text("directions.md", directions_markdown(outputs, units));
  staged.add_text("directions.csv", directions_csv(outputs));
  staged.add_text("directions.html", directions_page(outputs, json, units));
  staged.add_text("directions.json", json);
  if (outputs.map) {
    staged.add_text("directions_map.csv", direction_map_csv(outputs, *outputs.map));
    staged.add_text("directions_map_cases.csv", direction_map_cases_csv(outputs, *outputs.map));
    staged.add_text("directions_map.svg", direction_map_picture(outputs, *outputs.map));
    write_direction_map_vtk(outputs, *outputs.map, staged.add("directions_map.vtp"),
                            staged.final_path("directions_map.vtp"));
    staged.publish();
    return;
  }
  staged.publish({"directions_map.csv", "directions_map_cases.csv", "directions_map.svg",
                  "directions_map.vtp"});
}

}  // namespace crossgrain
