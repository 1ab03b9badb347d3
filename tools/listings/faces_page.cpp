// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/listings/faces_page.h"

#include <nlohmann/json.hpp>

#include "tools/results/page_arrays.h"
#include "tools/results/page_html.h"
#include "tools/results/place_text.h"
#include "tools/results/plain_text.h"

namespace crossgrain {
namespace {

using Json = nlohmann::ordered_json;

/// Points of the surface, then of the edges' courses; their places x y z apart, rounded to 16 bits.
void add_points(const Geometry& geometry, std::vector<PackedArray>& arrays) {
  constexpr const char* names[] = {"points.x", "points.y", "points.z"};
  for (int axis = 0; axis < 3; ++axis) {
    std::vector<double> places;
    for (const double place : geometry.surface.points.row(axis)) places.push_back(place);
    for (const CadEdge& edge : geometry.edges) {
      for (const double place : edge.course.row(axis)) places.push_back(place);
    }
    const Rounded round = rounded(places, finite_range(places), 16);
    arrays.push_back(packed_array(names[axis], round.codes, 2, round.low, round.step));
  }
}

std::vector<PackedArray> surface_arrays(const Geometry& geometry) {
  std::vector<PackedArray> arrays;
  add_points(geometry, arrays);
  std::vector<std::uint32_t> corners, faces, courses;
  for (const int corner : geometry.surface.triangles.reshaped())
    corners.push_back(static_cast<std::uint32_t>(corner));
  for (const FaceId face : geometry.surface.face_of_triangle)
    faces.push_back(static_cast<std::uint32_t>(number(face)));
  for (const CadEdge& edge : geometry.edges)
    courses.push_back(static_cast<std::uint32_t>(edge.course.cols()));
  arrays.push_back(packed_differences("triangles", corners));
  arrays.push_back(packed_differences("face_of_triangle", faces));
  arrays.push_back(packed_differences("points_of_edge", courses));
  return arrays;
}

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
