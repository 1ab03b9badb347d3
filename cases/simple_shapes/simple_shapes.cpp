// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/simple_shapes.h"

#include <algorithm>
#include <map>

#include "cases/simple_shapes/cylinder_shapes.h"
#include "cases/simple_shapes/rectangular_plates.h"
#include "cases/simple_shapes/round_plates.h"
#include "cases/simple_shapes/sphere_shapes.h"

namespace crossgrain {
namespace {

std::vector<Plate> plates_of(const PressedBody& part) {
  std::vector<Plate> plates;
  for (const FaceId id : part.body.faces) {
    const CadFace& face = part.geometry.face(id);
    if (const auto plate = round_plate(part, face)) plates.push_back(*plate);
    if (const auto plate = rectangular_plate(part, face)) plates.push_back(*plate);
  }
  return plates;
}

/// A plate is found by either of its sides. Ribs on one side make it several panels there: then
/// those count, else the one on the pressed side does.
std::vector<Plate> each_once(const std::vector<Plate>& plates, const PressedBody& part) {
  std::map<FaceId, int> panels_behind;
  std::map<FaceId, bool> found;
  for (const Plate& plate : plates) {
    found[plate.own] = true;
    if (!part.is_pressed(plate.own)) ++panels_behind[plate.opposite];
  }
  std::vector<Plate> once;
  for (const Plate& plate : plates) {
    const bool pressed = part.is_pressed(plate.own);
    const int behind = panels_behind[pressed ? plate.own : plate.opposite];
    if (pressed ? behind < 2 : behind >= 2 || !found.contains(plate.opposite))
      once.push_back(plate);
  }
  return once;
}

}  // namespace

std::vector<SimpleShape> simple_shapes(const Geometry& geometry,
                                       const std::vector<FaceId>& pressed) {
  std::vector<bool> is_pressed(geometry.faces.size(), false);
  for (const FaceId face : pressed) is_pressed[index(face)] = true;
  std::vector<SimpleShape> shapes;
  for (const Body& body : geometry.bodies) {
    const bool touched = std::any_of(body.faces.begin(), body.faces.end(),
                                     [&](FaceId face) { return is_pressed[index(face)]; });
    if (!body.modelled || !touched) continue;
    const SurfaceRays rays(geometry, body.id);
    const PressedBody part{geometry, body, rays, is_pressed};
    for (auto& shape : cylinder_shapes(part)) shapes.push_back(std::move(shape));
    for (auto& shape : sphere_shapes(part)) shapes.push_back(std::move(shape));
    for (auto& plate : each_once(plates_of(part), part)) shapes.push_back(std::move(plate.shape));
  }
  return shapes;
}

}  // namespace crossgrain
