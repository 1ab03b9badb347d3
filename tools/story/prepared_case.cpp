// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/story/prepared_case.h"

#include <spdlog/spdlog.h>

#include "cases/case_file/case_sources.h"
#include "cases/face_choice/stated_meetings.h"
#include "cases/face_choice/tried_choices.h"
#include "materials/elasticity/frame.h"
#include "tools/story/stopwatch.h"
#include "tools/terminal/interrupt.h"

namespace crossgrain {
namespace {

BodyMaterials materials_of_bodies(const CaseFile& case_file,
                                  const std::vector<const BodySpec*>& specs) {
  const ServiceConditions& service = case_file.conditions.service;
  const ServiceConditions proof = proof_conditions(service, case_file.targets);
  BodyMaterials materials;
  for (const BodySpec* spec : specs) {
    const MaterialCard card = find_card(spec->material, case_file.file.parent_path());
    materials.service.push_back(material_at(card, service));
    materials.proof.push_back(material_at(card, proof));
    if (spec->bead_width) {
      materials.service.back().bead_width_mm = *spec->bead_width;
      materials.proof.back().bead_width_mm = *spec->bead_width;
    }
  }
  return materials;
}

/// Refuse what the case cannot mean on this part, before the mesh is waited for.
/// @return which bodies are to share no nodes.
PartedBodies try_on_part(const CaseFile& case_file) {
  const Geometry part = cleared_up([&] { return import_step(import_options(case_file)); });
  materials_of_bodies(case_file, spec_of_body(case_file, part));
  const Features features = find_features(part);
  try_choices(case_file, part, features);
  return parted_bodies(part, stated_meetings(case_file, part, features));
}

MeshedGeometry import_and_mesh(const CaseFile& case_file, const PartedBodies& parted,
                               const MeshOptions& options, ProgressLine& progress) {
  ImportOptions import = import_options(case_file);
  import.apart = parted.pairs;
  const auto show = [&](const std::string& stage, double share) { progress.show(stage, share); };
  MeshedGeometry meshed = cleared_up([&] { return mesh_step(import, options, show); });
  std::vector<std::string>& warnings = meshed.geometry.warnings;
  warnings.insert(warnings.end(), parted.warnings.begin(), parted.warnings.end());
  for (const std::string& remedy : meshed.report.remedies) spdlog::info("mesh: {}", remedy);
  return meshed;
}

MaterialField field_of(const TetrahedronMesh& mesh, const BodyMaterials& materials,
                       const std::vector<const BodySpec*>& specs) {
  std::vector<Frame> frames;
  for (const BodySpec* spec : specs) frames.push_back(frame_along(spec->print_direction));
  return uniform_field(mesh, solid_materials(materials.service, MaterialSet::nominal), frames);
}

ArtificialPlaces artificial_places(const Loading& loading) {
  ArtificialPlaces places{loading.artificial, loading.artificial_edges, {}};
  if (!loading.joined) return places;
  for (const JoinedScrews& group : loading.joined->screws)
    for (std::size_t s = group.first; s < group.first + group.count; ++s) {
      const ElasticScrew& screw = loading.joined->joint.screws[s];
      places.heads.push_back({group.head_body, screw.head.centre, screw.axis, group.head_radius});
    }
  return places;
}

std::vector<double> bead_widths(const BodyMaterials& materials) {
  std::vector<double> widths;
  for (const MaterialAtConditions& material : materials.service)
    widths.push_back(material.bead_width_mm);
  return widths;
}

}  // namespace

PreparedCase prepare_case(const std::filesystem::path& file, ProgressLine& progress) {
  Stopwatch stopwatch;
  const CaseFile case_file = read_case(file);
  progress.show("trying the case on the part");
  const PartedBodies parted = try_on_part(case_file);
  stopwatch.lap("trying the case on the part");
  PreparedCase prepared = on_a_mesh(case_file, parted, case_file.mesh, stopwatch.laps(), progress);
  for (const std::string& warning : prepared.meshed.geometry.warnings) spdlog::warn("{}", warning);
  return prepared;
}

PreparedCase on_a_mesh(const CaseFile& case_file, const PartedBodies& parted,
                       const MeshOptions& options, const StageTimes& spent,
                       ProgressLine& progress) {
  Stopwatch stopwatch;
  PreparedCase prepared;
  prepared.case_file = case_file;
  prepared.seconds = spent;
  prepared.parted = parted;
  prepared.meshed = import_and_mesh(case_file, parted, options, progress);
  stopwatch.lap("import and mesh");

  progress.show("materials and loads");
  const Geometry& geometry = prepared.meshed.geometry;
  const TetrahedronMesh& mesh = prepared.meshed.mesh;
  const auto specs = spec_of_body(case_file, geometry);
  prepared.features = find_features(geometry);
  prepared.materials = materials_of_bodies(case_file, specs);
  prepared.field = field_of(mesh, prepared.materials, specs);
  prepared.loading = assemble_loading(case_file, geometry, prepared.features, mesh, prepared.field);
  prepared.sites = stress_sites(mesh, geometry, artificial_places(prepared.loading),
                                bead_widths(prepared.materials));
  stopwatch.lap("materials and loads");
  for (const auto& [stage, seconds] : stopwatch.laps()) prepared.seconds[stage] += seconds;
  for (const auto& [stage, seconds] : prepared.meshed.report.seconds)
    prepared.seconds["import and mesh: " + stage] += seconds;
  return prepared;
}

}  // namespace crossgrain
