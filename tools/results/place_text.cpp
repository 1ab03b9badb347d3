// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/place_text.h"

#include <algorithm>

#include "mesh/features/sharp_edges.h"
#include "tools/results/number_text.h"

namespace crossgrain {
namespace {

std::string surface_words(const CadFace& face) {
  const std::string radius = " of radius " + number_text(face.radius) + " mm";
  switch (face.kind) {
    case SurfaceKind::plane:
      return "flat";
    case SurfaceKind::cylinder:
      return (face.hollow ? "bore" : "round outside") + radius;
    case SurfaceKind::cone:
      return face.hollow ? "conical bore" : "cone";
    case SurfaceKind::sphere:
      return (face.hollow ? "hollow sphere" : "sphere") + radius;
    case SurfaceKind::torus:
      return "rounding of radius " + number_text(face.minor_radius) + " mm";
    default:
      return "free-form";
  }
}

/// The hole that a face belongs to, in words; empty if none.
std::string hole_words(const Features& features, FaceId face) {
  for (const Hole& hole : features.holes) {
    const std::string name =
        " of hole " + std::to_string(hole.id) + ", " + number_text(hole.diameter) + " mm";
    if (std::find(hole.wall.begin(), hole.wall.end(), face) != hole.wall.end())
      return "wall" + name;
    if (hole.floor == face) return "floor" + name;
    // An open flat face round a hole is not the hole's own.
    if (hole.seat && hole.seat->face == face && hole.seat->outer_diameter) return "seat" + name;
  }
  return "";
}

}  // namespace

std::string face_text(const Geometry& geometry, const Features& features, FaceId face) {
  std::string text = "face " + std::to_string(number(face));
  if (number(face) < 1 || index(face) >= geometry.faces.size()) return text;
  const CadFace& cad = geometry.face(face);
  if (!cad.name.empty()) text += ", \"" + cad.name + "\"";
  const std::string hole = hole_words(features, face);
  return text + ", " + (hole.empty() ? surface_words(cad) : hole);
}

std::string edge_text(const Geometry& geometry, const Features& features, EdgeId edge) {
  const CadEdge& cad = geometry.edge(edge);
  const bool inner = kind_of(cad) == EdgeKind::inner;
  std::string text = (inner ? "inner edge " : "edge ") + std::to_string(number(edge)) + " (" +
                     number_text(cad.material_angle) + " degrees of material)";
  if (cad.faces.size() == 2)
    text += " between " + face_text(geometry, features, cad.faces[0]) + ", and " +
            face_text(geometry, features, cad.faces[1]);
  return text;
}

std::string place_text(const Geometry& geometry, const Features& features, const ModeResult& mode) {
  const auto modelled = std::count_if(geometry.bodies.begin(), geometry.bodies.end(),
                                      [](const Body& body) { return body.modelled; });
  const std::string body = modelled > 1 ? ", " + mode.body : "";
  const std::string face =
      mode.face ? face_text(geometry, features, *mode.face) : "inside the wall";
  return position_text(mode.position) + " mm" + body + ", " + face;
}

}  // namespace crossgrain
