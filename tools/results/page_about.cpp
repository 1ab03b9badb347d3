// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/page_about.h"

#include <numbers>

#include "tools/results/place_text.h"

namespace crossgrain {

Json arrays_json(const std::vector<PackedArray>& arrays) {
  Json out = Json::object();
  for (const PackedArray& array : arrays) {
    out[array.name] = {
        {"bytes", array.bytes}, {"count", array.count}, {"low", array.low}, {"step", array.step}};
  }
  return out;
}

Json pressure_unit_json(const ReadingUnits& units) {
  return {{"name", name_of(units.pressure)}, {"per_MPa", per_MPa(units.pressure)}};
}

Json modes_json() {
  Json modes = Json::array();
  for (int i = 0; i <= static_cast<int>(FailureMode::maximum_stress); ++i) {
    const auto mode = static_cast<FailureMode>(i);
    modes.push_back({{"name", name_of(mode)}, {"words", words_for(mode)}});
  }
  return modes;
}

Json faces_json(const Geometry& geometry, const Features& features) {
  Json faces = Json::array();
  for (const CadFace& face : geometry.faces)
    faces.push_back(face_text(geometry, features, face.id));
  return faces;
}

Json print_json(const Printability& print) {
  return {{"height_mm", print.height_mm},
          {"footprint_mm2", print.footprint_mm2},
          {"plate_contact_mm2", print.plate_contact_mm2},
          {"overhang_mm2", print.overhang_mm2},
          {"trapped_overhang_mm2", print.trapped_overhang_mm2}};
}

Json plate_json(const Geometry& geometry, const std::vector<FaceId>& cavity,
                double overhang_angle) {
  const OverhangLimits limits = overhang_limits(overhang_angle);
  Json out = {{"overhang_angle_deg", overhang_angle * 180.0 / std::numbers::pi},
              {"limits",
               {{"needs_support", limits.needs_support},
                {"flat", limits.flat},
                {"on_plate_mm", limits.on_plate_mm}}},
              {"cavity", Json::array()},
              {"body_of_face", Json::array()},
              {"bodies", Json::array()}};
  for (const FaceId face : cavity) out["cavity"].push_back(number(face));
  for (const CadFace& face : geometry.faces) out["body_of_face"].push_back(number(face.body));
  for (const Body& body : geometry.bodies) {
    if (body.modelled) out["bodies"].push_back({{"id", number(body.id)}, {"name", body.name}});
  }
  return out;
}

}  // namespace crossgrain
