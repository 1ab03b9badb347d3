// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "mesh/geometry/geometry_words.h"
#include "tools/listings/geometry_text.h"

namespace crossgrain {
namespace {

using Json = nlohmann::ordered_json;

Json xyz(const Eigen::Vector3d& v) { return {v.x(), v.y(), v.z()}; }
Json box_json(const Box& box) { return {{"low_mm", xyz(box.low)}, {"high_mm", xyz(box.high)}}; }

template <class T>
Json or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json ids(const std::vector<FaceId>& faces) {
  Json list = Json::array();
  for (const FaceId face : faces) list.push_back(number(face));
  return list;
}

Json file_json(const ReadFile& file) {
  return {{"path", file.path}, {"declared_unit", file.declared_unit}, {"scale", file.scale}};
}

Json body_json(const Body& body) {
  return {{"id", number(body.id)},
          {"name", body.name},
          {"name_in_file", body.name_in_file},
          {"file", body.file},
          {"volume_mm3", body.volume},
          {"area_mm2", body.area},
          {"centroid_mm", xyz(body.centroid)},
          {"box", box_json(body.box)},
          {"faces", ids(body.faces)},
          {"colour", or_null(body.colour)}};
}

Json face_json(const CadFace& face) {
  return {{"id", number(face.id)},
          {"body", number(face.body)},
          {"kind", words(face.kind)},
          {"area_mm2", face.area},
          {"centroid_mm", xyz(face.centroid)},
          {"box", box_json(face.box)},
          {"axis", xyz(face.axis)},
          {"origin_mm", xyz(face.origin)},
          {"radius_mm", face.radius},
          {"minor_radius_mm", face.minor_radius},
          {"half_angle_rad", face.half_angle},
          {"hollow", face.hollow},
          {"name", face.name},
          {"colour", or_null(face.colour)}};
}

Json touching_json(const TouchingFaces& pair) {
  return {{"faces", {number(pair.first), number(pair.second)}},
          {"area_mm2", pair.area},
          {"apart_mm", pair.apart}};
}

Json hole_json(const Hole& hole) {
  return {{"id", hole.id},
          {"body", number(hole.body)},
          {"diameter_mm", hole.diameter},
          {"depth_mm", hole.depth},
          {"through", hole.through},
          {"axis", xyz(hole.axis)},
          {"mouth_mm", xyz(hole.mouth)},
          {"wall", ids(hole.wall)},
          {"floor", hole.floor ? Json(number(*hole.floor)) : Json(nullptr)},
          {"seat", hole.seat ? Json(number(hole.seat->face)) : Json(nullptr)},
          {"counterbore_diameter_mm", or_null(hole.counterbore_diameter)},
          {"counterbore_depth_mm", hole.counterbore_depth}};
}

Json pattern_json(const HolePattern& pattern) {
  return {{"holes", pattern.holes},    {"diameter_mm", pattern.diameter},
          {"ring", pattern.ring},      {"centre_mm", xyz(pattern.centre)},
          {"axis", xyz(pattern.axis)}, {"ring_diameter_mm", pattern.ring_diameter},
          {"pitch_mm", pattern.pitch}};
}

template <class T, class F>
Json list_of(const std::vector<T>& items, F&& to_json) {
  Json list = Json::array();
  for (const T& item : items) list.push_back(to_json(item));
  return list;
}

Json opening_json(const Opening& opening) {
  return {{"name", opening.name},
          {"beyond", number(opening.beyond)},
          {"centre_mm", xyz(opening.centre)},
          {"vector_area_mm2", xyz(opening.vector_area)}};
}

Json wetted_json(const WettedSurface& surface) {
  return {{"volume_mm3", surface.volume},
          {"area_mm2", surface.area},
          {"faces", ids(surface.faces)},
          {"openings", list_of(surface.openings, opening_json)}};
}

}  // namespace

std::string geometry_json(const Inspection& inspection) {
  const Geometry& geometry = inspection.geometry;
  const Json json = {{"file", inspection.file},
                     {"files", list_of(geometry.files, file_json)},
                     {"box", box_json(geometry.box)},
                     {"warnings", geometry.warnings},
                     {"bodies", list_of(geometry.bodies, body_json)},
                     {"faces", list_of(geometry.faces, face_json)},
                     {"touching_faces", list_of(inspection.touching, touching_json)},
                     {"holes", list_of(inspection.features.holes, hole_json)},
                     {"patterns", list_of(inspection.features.patterns, pattern_json)},
                     {"closed_cavities", list_of(inspection.cavities, wetted_json)},
                     {"wetted", inspection.wetted ? wetted_json(*inspection.wetted) : Json()}};
  // A name in a STEP file may hold bytes that are not UTF-8.
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace crossgrain
