// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_parts_json.h"

namespace crossgrain {
namespace {

Json mesh_passes_json(const std::vector<MeshPass>& passes) {
  Json out = Json::array();
  for (const MeshPass& pass : passes) {
    const auto& error = pass.error;
    out.push_back({{"unknowns", pass.unknowns},
                   {"safety_factor",
                    json_number(pass.governing ? pass.governing->factor.value : std::nullopt)},
                   {"safety_factor_error", error ? Json(error->factor) : nullptr},
                   {"energy_error_fraction", error ? Json(error->energy) : nullptr},
                   {"mean_edge_at_place_mm", pass.place ? Json(pass.place->mean_edge_mm) : nullptr},
                   {"seconds", pass.seconds}});
  }
  return out;
}

Json at_edge_json(const RawAtEdge& raw) {
  return {{"raw_safety_factor", raw.factor}, {"mean_edge_mm", raw.mean_edge_mm}};
}

Json growing_edges_json(const std::vector<GrowingEdge>& edges) {
  Json out = Json::array();
  for (const GrowingEdge& growing : edges)
    out.push_back({{"edge", number(growing.edge)},
                   {"before", at_edge_json(growing.before)},
                   {"now", at_edge_json(growing.now)},
                   {"exponent", growing.exponent}});
  return out;
}

}  // namespace

Json mesh_report_json(const RunOutputs& outputs) {
  const TetrahedronMesh& mesh = outputs.meshed.mesh;
  const MeshReport& report = outputs.result.mesh_report;
  Json thin = Json::array();
  for (const ThinPlace& place : report.thin_places) {
    thin.push_back({{"face", number(place.face)},
                    {"position_mm", json_vector(place.position)},
                    {"wall_mm", place.wall},
                    {"layers", place.layers}});
  }
  return {{"unknowns", mesh.unknowns()},
          {"nodes", mesh.node_count()},
          {"tetrahedra", mesh.tetrahedron_count()},
          {"layers_min", report.layers_min},
          {"wall_min_mm", report.wall_min_mm},
          {"thin_places", thin},
          {"remedies", report.remedies},
          {"curved_elements_straightened", report.curved_elements_straightened},
          {"min_scaled_jacobian", report.min_scaled_jacobian},
          {"flattest_element_mm", json_vector(report.flattest_at)},
          {"volume_mm3", report.volume_mm3},
          {"cad_volume_mm3", report.cad_volume_mm3},
          {"passes", mesh_passes_json(outputs.result.mesh_passes)},
          {"growing_edges", growing_edges_json(outputs.result.growing_edges)},
          {"extrapolated_safety_factor", json_number(outputs.result.extrapolated_factor)},
          {"refining_ended", outputs.result.refining_ended}};
}

}  // namespace crossgrain
