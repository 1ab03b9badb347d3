// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/report_page.h"

#include "tools/results/json_parts.h"
#include "tools/results/page_fields.h"
#include "tools/results/page_html.h"
#include "tools/results/place_text.h"

namespace crossgrain {
namespace {

constexpr int mode_count = static_cast<int>(FailureMode::maximum_stress) + 1;

// From fine to coarse; the last is taken whatever its size.
constexpr PagePrecision precisions[] = {{12, true}, {11, true}, {10, true}, {9, true}, {10, false}};

Json faces_json(const RunOutputs& outputs) {
  Json faces = Json::array();
  for (const CadFace& face : outputs.meshed.geometry.faces)
    faces.push_back(face_text(outputs.meshed.geometry, outputs.features, face.id));
  return faces;
}

Json modes_json() {
  Json modes = Json::array();
  for (int i = 0; i < mode_count; ++i) {
    const auto mode = static_cast<FailureMode>(i);
    modes.push_back({{"name", name_of(mode)}, {"words", words_for(mode)}});
  }
  return modes;
}

/// The modelled bodies, in the order of summary.json, with how many tetrahedra each has.
Json bodies_json(const RunOutputs& outputs, const PageMesh& mesh) {
  Json bodies = Json::array();
  for (const Body& body : outputs.meshed.geometry.bodies) {
    if (!body.modelled) continue;
    bodies.push_back({{"tetrahedra", mesh.tetrahedra_of_body[index(body.id)]}});
  }
  return bodies;
}

Json arrays_json(const std::vector<PackedArray>& arrays) {
  Json out = Json::object();
  for (const PackedArray& array : arrays) {
    out[array.name] = {
        {"bytes", array.bytes}, {"count", array.count}, {"low", array.low}, {"step", array.step}};
  }
  return out;
}

std::vector<PackedArray> all_arrays(const RunOutputs& outputs, const PageMesh& mesh,
                                    const PagePrecision& precision) {
  std::vector<PackedArray> arrays = page_shape(outputs, mesh, precision.middles);
  for (std::size_t i = 0; i < outputs.result.cases.size(); ++i) {
    for (PackedArray& array : page_case_fields(outputs, mesh, i, precision))
      arrays.push_back(std::move(array));
  }
  return arrays;
}

}  // namespace

std::string report_page(const RunOutputs& outputs, const std::string& summary,
                        const ReadingUnits& units) {
  const PageMesh mesh = page_mesh(outputs);
  Json about = {
      {"governing_case", governing_case_index(outputs.result)},
      {"pressure_unit", {{"name", name_of(units.pressure)}, {"per_MPa", per_MPa(units.pressure)}}},
      {"modes", modes_json()},
      {"faces", faces_json(outputs)},
      {"bodies", bodies_json(outputs, mesh)}};
  std::string page;
  for (const PagePrecision& precision : precisions) {
    const std::vector<PackedArray> arrays = all_arrays(outputs, mesh, precision);
    about["bits"] = precision.bits;
    about["middles"] = precision.middles;
    about["arrays"] = arrays_json(arrays);
    page = page_html(
        "report", {{"summary", summary}, {"page", finished(about, NotANumber::refused)}}, arrays);
    if (page.size() <= page_size_wanted) break;
  }
  return page;
}

}  // namespace crossgrain
