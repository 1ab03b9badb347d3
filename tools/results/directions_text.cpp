// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/directions_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
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

/// "17.4 ± 3.1"
std::string factor_with_mesh_error(const DirectionRow& row) {
  if (!row.factor.value) return factor_text(row.factor.value);
  return factor_text(row.factor.value) + " ± " +
         (row.mesh_error ? number_text(*row.mesh_error, 2) : "?");
}

std::string strength_table(const std::vector<DirectionRow>& rows, const ReadingUnits& units) {
  MarkdownTable table({"print direction", "up", "factor", "range", "allowable", "moves [mm]"});
  for (const DirectionRow& row : rows) {
    table.add({markdown_text(row.name),
               row.of_bodies.empty() ? direction_text(row.direction) : "each its own",
               factor_with_mesh_error(row), range_text(row.factor),
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
  std::string words = outputs.maps.size() > 1
                          ? "Factors are of all bodies together. "
                          : "A direction is that of every body here, each standing on a plate of "
                            "its own. ";
  if (case_file.joined())
    words +=
        "The joint was solved anew for each, and what the parts bear of it is in the factor. The "
        "joint itself, its seal and its screws, is judged by `crossgrain run`: give the bodies "
        "their directions and run it.";
  return wrapped(words) + "\n";
}

/// Bodies' own directions, row by row.
std::string directions_of_bodies(const DirectionOutputs& outputs,
                                 const std::vector<DirectionRow>& rows) {
  std::string out;
  for (const DirectionRow& row : rows) {
    if (row.of_bodies.empty()) continue;
    std::string each;
    for (const auto& [body, build] : row.of_bodies)
      each += (each.empty() ? "" : ", ") + markdown_text(outputs.geometry.body(body).name) + " " +
              direction_text(build);
    out += list_item("-", "**" + markdown_text(row.name) + "**: " + each);
  }
  return out.empty() ? out : "Where each body has its own direction:\n\n" + out + "\n";
}

/// Whether the best of each print goes together.
std::string best_together(const DirectionOutputs& outputs, const std::vector<DirectionRow>& rows) {
  if (outputs.maps.size() < 2) return "";
  const DirectionRow& strongest = rows.front();
  const std::string factor = factor_text(strongest.factor.value);
  const auto together = std::ranges::find(rows, best_of_each_print, &DirectionRow::name);
  assert(together != rows.end());
  // As strong as can be read: less would be the joint's iteration.
  if (factor_text(together->factor.value) == factor)
    return wrapped(
               "The best directions of all prints together are as strong as anything that was "
               "solved: a factor of " +
               factor + ".") +
           "\n";
  return wrapped("**The best direction of each print does not make the strongest whole**: \"" +
                 markdown_text(strongest.name) + "\" has a factor of " + factor +
                 ", all prints in their best directions " + factor_text(together->factor.value) +
                 ". What one print gains another may lose, since the joint shares the load out by "
                 "their stiffness.") +
         "\n";
}

std::string percent(double share) { return number_text(100.0 * share, 2) + " %"; }

std::string change_words(const JointChange& change) {
  std::string shares;
  for (const auto& [share, what] :
       {std::pair(change.opened, "opened"), std::pair(change.closed, "closed"),
        std::pair(change.stop, "came upon its stop or left it")})
    if (share > 0.0) shares += (shares.empty() ? "" : ", ") + percent(share) + " of it " + what;
  return "\"" + change.meeting + "\" is not as in the case: " + shares + ", in the state \"" +
         change.state + "\"";
}

std::string joint_markdown(const DirectionOutputs& outputs) {
  if (outputs.maps.empty() || !outputs.case_file.joined()) return "";
  const auto remarks = joint_remarks(outputs);
  if (remarks.empty())
    return wrapped(
               "Solved with the joint free, no face opened or closed that does not in the "
               "case, and no factor left what its map stated.") +
           "\n";
  std::string out = "The joint is not everywhere as the maps have it, which is as in the case:\n\n";
  for (const auto& [row, words] : remarks)
    out += list_item("-", "**" + markdown_text(row) + "**: " + markdown_text(words));
  return out + "\n";
}

std::string maps_markdown(const DirectionOutputs& outputs) {
  const std::vector<std::string> files = map_files(outputs.maps);
  std::string out;
  for (std::size_t i = 0; i < outputs.maps.size(); ++i)
    out += "\n" + direction_map_markdown(outputs, outputs.maps[i], files[i]);
  return out;
}

/// Files of maps that an earlier study may have left there.
std::vector<std::string> earlier_maps(const std::filesystem::path& directory,
                                      const std::vector<std::string>& written) {
  std::vector<std::string> outdated;
  std::error_code none;
  for (const auto& entry : std::filesystem::directory_iterator(directory, none)) {
    const std::string name = entry.path().filename().string();
    const std::string ending = entry.path().extension().string();
    if (name.starts_with("directions_map") &&
        (ending == ".csv" || ending == ".svg" || ending == ".vtp") &&
        std::ranges::find(written, name) == written.end())
      outdated.push_back(name);
  }
  return outdated;
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

Json row_json(const DirectionOutputs& outputs, const DirectionRow& row) {
  Json out = {{"name", row.name},
              {"direction", row.of_bodies.empty() ? json_vector(row.direction) : Json(nullptr)}};
  out["of_bodies"] = Json::array();
  for (const auto& [body, build] : row.of_bodies)
    out["of_bodies"].push_back({{"body", number(body)},
                                {"name", outputs.geometry.body(body).name},
                                {"direction", json_vector(build)}});
  out["safety_factor"] = json_range(row.factor);
  out["safety_factor_mesh_error"] = json_number(row.mesh_error);
  out["governing"] = row.governing ? json_mode(*row.governing) : Json(nullptr);
  if (row.governing) out["governing"].erase("mesh_error");  // the row's own, by the whole part
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
  out["joint_changes"] = Json::array();
  for (const JointChange& change : row.joint_changes)
    out["joint_changes"].push_back({{"state", change.state},
                                    {"meeting", change.meeting},
                                    {"opened", change.opened},
                                    {"closed", change.closed},
                                    {"stop", change.stop}});
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

Eigen::Vector3d direction_of(const DirectionRow& row, BodyId body) {
  const auto own = std::ranges::find(row.of_bodies, body, &BodyDirection::body);
  return own == row.of_bodies.end() ? row.direction : own->build;
}

std::vector<JointRemark> joint_remarks(const DirectionOutputs& outputs) {
  std::vector<JointRemark> remarks;
  if (!outputs.case_file.joined()) return remarks;
  for (const MappedPrint& mapped : outputs.maps)
    for (const OwnFactor& own : mapped.solved) {
      const double off = relative_difference(own.mapped, own.factor);
      if (!own.on_map || !own.others_held || !(off > own.said)) continue;
      remarks.push_back({own.row, mapped.print.name + " has a factor of " +
                                      factor_text(own.factor) + ", its map said " +
                                      factor_text(own.mapped) + ": off by " + percent(off) +
                                      ", stated were " + percent(own.said) +
                                      "; what the map states now is raised to fit"});
    }
  for (const DirectionRow& row : outputs.rows)
    for (const JointChange& change : row.joint_changes)
      remarks.push_back({row.name, change_words(change)});
  return remarks;
}

std::string directions_markdown(const DirectionOutputs& outputs, const ReadingUnits& units) {
  const std::vector<DirectionRow> rows = strongest_first(outputs.rows);
  const double angle = outputs.case_file.directions.overhang_angle * 180.0 / M_PI;
  return "# Print directions: " + markdown_text(outputs.case_file.title) + "\n\n" +
         wrapped(
             "Strongest first. \"Up\" is the build direction, from the plate to the nozzle, in the "
             "STEP file's "
             "axes. The factor asked for is " +
             number_text(outputs.case_file.targets.safety_factor) +
             "; ± is what the mesh may make of a factor, as estimated, and the range that of "
             "estimated constants. All are solved on one mesh, which `crossgrain run` would make "
             "finer where the ± is large.") +
         "\n" + strength_table(rows, units) + directions_of_bodies(outputs, rows) +
         best_together(outputs, rows) + weak_places(outputs, rows) + several_bodies(outputs) +
         joint_markdown(outputs) + "## Printing\n\n" + printing_table(rows) +
         wrapped("Overhang: surface that looks down at less than " + number_text(angle) +
                 " degrees from horizontal, what lies on the plate left out. Inside: in cavities, "
                 "where supports are "
                 "hard or impossible to remove.") +
         maps_markdown(outputs);
}

std::string directions_json(const DirectionOutputs& outputs) {
  Json document;
  document["schema_version"] = 2;
  document["title"] = outputs.case_file.title;
  document["target_safety_factor"] = outputs.case_file.targets.safety_factor;
  document["overhang_angle_deg"] = outputs.case_file.directions.overhang_angle * 180.0 / M_PI;
  document["directions"] = Json::array();
  for (const DirectionRow& row : outputs.rows)
    document["directions"].push_back(row_json(outputs, row));
  const std::vector<std::string> files = map_files(outputs.maps);
  document["maps"] = Json::array();
  for (std::size_t i = 0; i < outputs.maps.size(); ++i)
    document["maps"].push_back(direction_map_json(outputs, outputs.maps[i], files[i]));
  return finished(std::move(document), NotANumber::refused);
}

std::string directions_csv(const DirectionOutputs& outputs) {
  std::string out =
      "name,x,y,z,safety_factor,safety_factor_low,safety_factor_high,safety_factor_"
      "mesh_error,mode,governing_case,allowable_"
      "pressure_MPa,"
      "displacement_max_mm,height_mm,footprint_mm2,plate_contact_mm2,overhang_mm2,trapped_overhang_"
      "mm2,of_bodies\r\n";
  for (const DirectionRow& row : outputs.rows) {
    out += csv_field(row.name);
    for (const double x : row.direction) out += "," + (row.of_bodies.empty() ? csv_number(x) : "");
    for (const auto& factor : {row.factor.value, row.factor.low, row.factor.high, row.mesh_error})
      out += "," + csv_number(factor);
    out += "," + (row.governing ? std::string(name_of(row.governing->mode)) : "") + "," +
           csv_field(row.governing_case);
    for (const auto& value : {row.allowable_pressure_MPa, std::optional(row.displacement_max_mm),
                              std::optional(row.height_mm), std::optional(row.footprint_mm2),
                              std::optional(row.plate_contact_mm2), std::optional(row.overhang_mm2),
                              std::optional(row.trapped_overhang_mm2)}) {
      out += "," + csv_number(value);
    }
    std::string each;
    for (const auto& [body, build] : row.of_bodies)
      each += fmt::format("{}{}: {} {} {}", each.empty() ? "" : "; ",
                          outputs.geometry.body(body).name, build.x(), build.y(), build.z());
    out += "," + csv_field(each) + "\r\n";
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
  const std::vector<std::string> files = map_files(outputs.maps);
  for (std::size_t i = 0; i < files.size(); ++i) {
    const MappedPrint& mapped = outputs.maps[i];
    staged.add_text(files[i] + ".csv", direction_map_csv(mapped));
    staged.add_text(files[i] + "_cases.csv", direction_map_cases_csv(mapped));
    staged.add_text(files[i] + ".svg", direction_map_picture(outputs, mapped));
    write_direction_map_vtk(mapped, staged.add(files[i] + ".vtp"),
                            staged.final_path(files[i] + ".vtp"));
  }
  staged.publish(earlier_maps(directory, staged.names()));
}

}  // namespace crossgrain
