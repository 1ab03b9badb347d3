// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "tools/results/markdown.h"
#include "tools/results/number_text.h"
#include "tools/results/place_text.h"
#include "tools/results/plain_text.h"
#include "tools/results/summary_sections.h"

namespace crossgrain {
namespace {

/// What is smaller is rounding, and its digits would only be read as a finding.
std::string percent(double fraction) {
  return fraction < 1e-5 ? "under 0.001 %" : number_text(fraction * 100.0, 2) + " %";
}

/// How the factor went from mesh to mesh.
std::string mesh_passes_words(const RunResult& result) {
  if (result.mesh_passes.size() < 2 && result.refining_ended.empty()) return "";
  MarkdownTable table({"mesh", "unknowns", "factor", "±", "energy", "edges there [mm]", "s"});
  int count = 0;
  for (const MeshPass& pass : result.mesh_passes)
    table.add({std::to_string(++count), std::to_string(pass.unknowns),
               factor_text(pass.governing ? pass.governing->factor.value : std::nullopt),
               pass.error ? number_text(pass.error->factor, 2) : "-",
               pass.error ? percent(pass.error->energy) : "-",
               pass.place ? number_text(pass.place->mean_edge_mm) : "-",
               number_text(pass.seconds)});
  std::string words = "Meshes were refined where the factor is decided; the last one counts.";
  if (result.extrapolated_factor)
    words +=
        " Extrapolated to no error the factor is " + factor_text(result.extrapolated_factor) + ".";
  if (!result.refining_ended.empty())
    words += " There was no further mesh, though the case asks for one: " +
             markdown_text(result.refining_ended) + ".";
  return wrapped(words) + "\n" + table.text();
}

/// Which edges' raw stress means nothing, as the meshes have shown.
std::string growing_edges_words(const RunOutputs& outputs) {
  const RunResult& result = outputs.result;
  if (result.growing_edges.empty()) return "";
  std::vector<std::string> edges;
  for (const GrowingEdge& growing : result.growing_edges)
    edges.push_back(
        markdown_text(edge_text(outputs.meshed.geometry, outputs.features, growing.edge)) +
        ": by the value at a node a factor of " + number_text(growing.before.factor) +
        " with elements of " + number_text(growing.before.mean_edge_mm) + " mm, of " +
        number_text(growing.now.factor) + " with " + number_text(growing.now.mean_edge_mm) + " mm");
  return wrapped(
             "At these edges the stress at nodes grows from mesh to mesh: it has no limit there, "
             "and **its raw value is meaningless**. What a bead feels has a limit, and is what "
             "counts in the verdict.") +
         "\n" + bullet_list(edges);
}

}  // namespace

std::string trust_section(const RunOutputs& outputs) {
  const RunResult& result = outputs.result;
  const MeshReport& mesh = result.mesh_report;
  MarkdownTable table({"check", "found"});
  table.add({"forces in against forces out", percent(result.balance.force_error) + " apart"});
  table.add({"moments in against moments out", percent(result.balance.moment_error) + " apart"});
  table.add({"left over, balanced by inertia",
             percent(result.balance.carried_by_inertia) + " of the load"});
  table.add({"left over by the solver",
             percent(result.balance.residual) + " of the load; " + result.solve_report.method});
  if (result.balance.energy_error)
    table.add({"which makes an error in energy of", percent(*result.balance.energy_error)});
  for (const BodyBalance& body : result.balance.bodies) {
    const std::string name = markdown_text(body.name);
    table.add({"volume of '" + name + "' in the mesh against CAD",
               fmt::format("{} against {} mm³, {} apart", number_text(body.volume_mm3, 5),
                           number_text(body.cad_volume_mm3, 5), percent(body.volume_error()))});
    table.add({"its mass against CAD's times the card's density",
               fmt::format("{} against {} g, {} apart", number_text(body.mass_g, 4),
                           number_text(body.cad_mass_g, 4), percent(body.mass_error()))});
  }
  table.add({"elements through the wall", fmt::format("{}, in a wall of {} mm", mesh.layers_min,
                                                      number_text(mesh.wall_min_mm))});
  table.add(
      {"size", fmt::format("{} tetrahedra, {} unknowns", outputs.meshed.mesh.tetrahedron_count(),
                           outputs.meshed.mesh.unknowns())});
  table.add({"curved elements straightened", std::to_string(mesh.curved_elements_straightened)});
  table.add({"flattest element",
             fmt::format("Jacobian {} of a regular element's, at {}",
                         number_text(mesh.min_scaled_jacobian), position_text(mesh.flattest_at))});
  if (const auto& error = result.mesh_error) {
    table.add({"the mesh's error in energy norm, estimated", percent(error->energy)});
    table.add({"the mesh's error in the factor, estimated", number_text(error->factor, 2)});
  }
  std::string out = "## How far to trust this\n\n" + table.text() + mesh_passes_words(result) +
                    growing_edges_words(outputs);
  if (!mesh.remedies.empty())
    out += "What it took to mesh the part:\n\n" + bullet_list(mesh.remedies);
  constexpr std::size_t places_shown = 5;
  std::vector<std::string> thin;
  for (const ThinPlace& place : mesh.thin_places) {
    if (thin.size() == places_shown) break;
    thin.push_back(fmt::format("{} of {} layers at {}, wall {} mm, {}", place.layers,
                               outputs.case_file.mesh.layers, position_text(place.position),
                               number_text(place.wall),
                               face_text(outputs.meshed.geometry, outputs.features, place.face)));
  }
  if (thin.empty()) return out;
  return out +
         fmt::format("Fewer elements through the wall than asked for in {} places, e.g.\n\n",
                     mesh.thin_places.size()) +
         bullet_list(thin);
}

std::string closing_section(const RunOutputs& outputs) {
  const RunResult& result = outputs.result;
  std::string out;
  if (!result.notes.empty()) out += "## Notes\n\n" + bullet_list(result.notes);
  if (!result.cautions.empty()) out += "## Cautions\n\n" + bullet_list(result.cautions);
  out += "## To run it again\n\n    crossgrain run " + shell_word(result.case_file) + "\n\n";
  return out + wrapped("Crossgrain " + markdown_text(result.program_version) +
                       ". To look at: report.html; in a VTK viewer fields.pvd, faces.pvd" +
                       (result.joint ? " and, of the joint, joint.pvd; joint_forces.svg" : "") +
                       ". For scripts: summary.json" + (result.joint ? ", joint.csv." : "."));
}

}  // namespace crossgrain
