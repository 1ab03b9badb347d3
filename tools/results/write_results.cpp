// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/write_results.h"

#include <algorithm>

#include "tools/results/atomic_file.h"
#include "tools/results/fields_vtk.h"
#include "tools/results/joint_csv.h"
#include "tools/results/joint_forces_svg.h"
#include "tools/results/report_page.h"
#include "tools/results/summary_json.h"
#include "tools/results/summary_text.h"

namespace crossgrain {
namespace {

namespace fs = std::filesystem;

constexpr const char* joint_table = "joint.csv";
constexpr const char* joint_plot = "joint_forces.svg";
constexpr const char* joint_fields = "joint.pvd";

bool matches(const std::string& name, std::string_view start, std::string_view end) {
  return name.size() > start.size() + end.size() && name.compare(0, start.size(), start) == 0 &&
         name.compare(name.size() - end.size(), end.size(), end) == 0;
}

/// Field files of an earlier run whose load case this one does not have, those of a joint that this
/// one has not: beside the new ones they would mislead.
std::vector<std::string> outdated_files(const fs::path& directory,
                                        const std::vector<std::string>& current) {
  std::vector<std::string> outdated;
  std::error_code none;
  for (const fs::directory_entry& entry : fs::directory_iterator(directory, none)) {
    const std::string name = entry.path().filename().string();
    const bool ours = matches(name, "fields_", ".vtu") || matches(name, "faces_", ".vtp") ||
                      matches(name, "joint", ".vtp") || name == "joint.vtp" ||
                      name == joint_table || name == joint_plot || name == joint_fields;
    if (ours && std::find(current.begin(), current.end(), name) == current.end())
      outdated.push_back(name);
  }
  return outdated;
}

void write_field_files(const RunOutputs& outputs, StagedFiles& staged) {
  const FieldWriter writer(outputs);
  std::vector<std::string> fields, faces, joints;
  const std::vector<CaseFileNames> names = case_file_names(outputs.result);
  for (std::size_t i = 0; i < names.size(); ++i) {
    writer.write_volume(i, staged.add(names[i].fields), staged.final_path(names[i].fields));
    writer.write_faces(i, staged.add(names[i].faces), staged.final_path(names[i].faces));
    fields.push_back(names[i].fields);
    faces.push_back(names[i].faces);
    if (outputs.result.cases[i].meetings.empty()) continue;
    writer.write_meeting_faces(i, staged.add(names[i].joint), staged.final_path(names[i].joint));
    joints.push_back(names[i].joint);
  }
  staged.add_text("fields.pvd", field_collection(fields));
  staged.add_text("faces.pvd", field_collection(faces));
  if (!joints.empty()) staged.add_text(joint_fields, field_collection(joints));
}

}  // namespace

void write_results(const RunOutputs& outputs, const ReadingUnits& units,
                   const fs::path& directory) {
  // Composed first: a result that cannot be told must not cost the time of writing fields.
  const std::string json = summary_json(outputs);
  const std::string text = summary_text(outputs, units);
  StagedFiles staged(directory);
  write_field_files(outputs, staged);
  staged.add_text("report.html", report_page(outputs, json, units));
  if (outputs.result.joint) {
    staged.add_text(joint_table, joint_csv(outputs.result.joint->history));
    staged.add_text(joint_plot, joint_forces_svg(outputs.result.joint->history));
  }
  staged.add_text("summary.md", text);
  // Last: a script that sees a new summary.json finds the rest in place.
  staged.add_text("summary.json", json);
  staged.publish(outdated_files(directory, staged.names()));
}

}  // namespace crossgrain
