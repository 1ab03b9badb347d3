// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/starter/meeting_words.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "cases/starter/starter_words.h"

namespace crossgrain {
namespace {

/// Nearer than this faces are drawn touching: no print is so accurate [mm].
constexpr double touching = 0.02;

std::string faces_and_mate(const Geometry& geometry, const TouchingFaces& pair) {
  const auto choice = [&](FaceId id) {
    const CadFace& face = geometry.face(id);
    return written_choice_of_one(geometry, face, narrowed_to(geometry, face.body));
  };
  return "faces = " + choice(pair.first) + "\nmate = " + choice(pair.second) + "\n";
}

/// Between its edges: a ring's area over its middle line, and nearly that of a long strip [mm].
/// @return nothing for a face without edges.
std::optional<double> width_of(const Geometry& geometry, const CadFace& face) {
  double edges = 0.0;
  for (const auto& loop : face.loops)
    for (const LoopEdge& edge : loop) edges += geometry.edge(edge.edge).length;
  if (!(edges > 0.0)) return std::nullopt;
  return 2.0 * face.area / edges;
}

/// To a hundredth of a millimetre.
double rounded(double length) { return std::round(100.0 * length) / 100.0; }

}  // namespace

bool leaves_room(const TouchingFaces& pair) { return pair.apart > touching; }

std::string narrowed_to(const Geometry& geometry, BodyId id) {
  const std::string& name = geometry.body(id).name;
  const auto namesakes = std::ranges::count(geometry.bodies, name, &Body::name);
  return ", body = " + quoted(name.empty() || namesakes > 1 ? std::to_string(number(id)) : name);
}

std::string named_after_bodies(const Geometry& geometry, const TouchingFaces& pair) {
  const auto name = [&](FaceId face) {
    const Body& body = geometry.body(geometry.face(face).body);
    return body.name.empty() ? "body " + std::to_string(number(body.id)) : body.name;
  };
  return name(pair.first) + " - " + name(pair.second);
}

std::string written_contact(const Geometry& geometry, const TouchingFaces& pair,
                            const std::string& name, const std::string& kind) {
  const bool in_each_other = pair.apart < -touching;
  return "[[contact]]\nname = " + quoted(name) + "\nkind = " + quoted(kind) + "\n" +
         faces_and_mate(geometry, pair) +
         (in_each_other ? "clearance = " + quoted_length(rounded(pair.apart)) +
                              "   # drawn in each other: a press fit; check this\n"
                        : "");
}

std::string written_gasket(const Geometry& geometry, const TouchingFaces& pair,
                           const std::string& name, const std::string& bolts,
                           const std::string& pressure) {
  const CadFace &first = geometry.face(pair.first), &second = geometry.face(pair.second);
  const CadFace& smaller = first.area < second.area ? first : second;
  const auto width = width_of(geometry, smaller);
  return "[[gasket]]\nname = " + quoted(name) + "\n" + faces_and_mate(geometry, pair) +
         "bolts = " + quoted(bolts) + "\npressure = " + quoted(pressure) +
         "\nthickness = " + quoted_length(rounded(pair.apart)) + "\n" +
         (width ? "width = " + quoted_length(rounded(*width)) + "   # check this\n" : "") +
         "hardness = 40   # check this: Shore A\n";
}

}  // namespace crossgrain
