// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/listings/faces_page.h"

#include <nlohmann/json.hpp>

#include "tools/results/page_html.h"
#include "tools/results/page_surface.h"
#include "tools/results/place_text.h"
#include "tools/results/plain_text.h"

namespace crossgrain {
namespace {

using Json = nlohmann::ordered_json;

/// geometry_json's strings come from the file as they are.
void make_plain(Json& value) {
  if (value.is_string()) value = plain_text(value.get_ref<const std::string&>());
  // A plain value's only element is itself.
  if (!value.is_structured()) return;
  for (Json& member : value) make_plain(member);
}

}  // namespace

std::string faces_page(const Inspection& inspection) {
  const Geometry& geometry = inspection.geometry;
  const std::vector<PackedArray> arrays = surface_arrays(geometry);
  Json about = {{"faces", Json::array()}, {"arrays", Json::object()}};
  for (const CadFace& face : geometry.faces)
    about["faces"].push_back(face_text(geometry, inspection.features, face.id));
  for (const PackedArray& array : arrays) {
    about["arrays"][array.name] = {
        {"bytes", array.bytes}, {"count", array.count}, {"low", array.low}, {"step", array.step}};
  }
  about["geometry"] = Json::parse(geometry_json(inspection));
  make_plain(about);
  return page_html("faces", {{"page", about.dump()}}, arrays);
}

}  // namespace crossgrain
