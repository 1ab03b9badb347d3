// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/sphere_shapes.h"

#include <Eigen/Geometry>
#include <algorithm>

#include "cases/simple_shapes/face_patch.h"
#include "cases/simple_shapes/wall_reading.h"

namespace crossgrain {
namespace {

constexpr double least_radius_over_wall = 2.0;
constexpr double share_of_even_area = 0.75;

bool same_sphere(const CadFace& a, const CadFace& b) {
  const double slack = 1e-3 * a.radius;
  return (a.origin - b.origin).norm() < slack && std::abs(a.radius - b.radius) < slack;
}

/// Faces of one hollow sphere, in order of their lowest.
std::vector<std::vector<FaceId>> hollow_spheres(const PressedBody& part) {
  std::vector<std::vector<FaceId>> spheres;
  for (const FaceId id : part.body.faces) {
    const CadFace& face = part.geometry.face(id);
    if (face.kind != SurfaceKind::sphere || !face.hollow) continue;
    const auto known = std::find_if(spheres.begin(), spheres.end(), [&](const auto& faces) {
      return same_sphere(part.geometry.face(faces.front()), face);
    });
    if (known == spheres.end())
      spheres.push_back({id});
    else
      known->push_back(id);
  }
  return spheres;
}

struct Reading {
  WallReading wall;
  double area;
};

std::vector<Reading> readings_of(const PressedBody& part, const FacePatch& patch,
                                 const CadFace& sphere) {
  std::vector<Reading> readings;
  for (std::size_t i = 0; i < patch.middles().size(); ++i) {
    const Eigen::Vector3d outward = (patch.middles()[i] - sphere.origin).normalized();
    const auto wall =
        read_wall(part.geometry, part.rays, sphere.origin + sphere.radius * outward, outward);
    if (wall && wall->square) readings.push_back({*wall, patch.areas()[i]});
  }
  return readings;
}

/// Nothing unless most of the area has it.
std::optional<double> common_wall(const std::vector<Reading>& readings, const FacePatch& patch) {
  std::vector<double> walls;
  double like = 0.0, all = 0.0;
  for (const Reading& reading : readings) walls.push_back(reading.wall.thickness);
  const double wall = median_of(walls);
  for (const Reading& reading : readings)
    if (even(reading.wall.thickness, wall)) like += reading.area;
  for (const double area : patch.areas()) all += area;
  if (!(like >= share_of_even_area * all)) return std::nullopt;
  return wall;
}

std::optional<SimpleShape> dome_of(const PressedBody& part, const std::vector<FaceId>& faces) {
  const CadFace& sphere = part.geometry.face(faces.front());
  const FacePatch patch(part.geometry, faces);
  const auto readings = readings_of(part, patch, sphere);
  const auto wall = common_wall(readings, patch);
  if (!wall || sphere.radius < least_radius_over_wall * *wall) return std::nullopt;
  const auto edge = patch.rims().empty() ? FacePatch::Rim{} : patch.rims().front();
  const auto openings = segments_from(patch.rims(), 1);

  SimpleShape shape{.kind = ShapeKind::sphere, .body = part.body.id, .faces = faces};
  shape.radius = sphere.radius;
  double most_room = -1.0;
  for (const Reading& reading : readings) {
    const WallReading& here = reading.wall;
    const bool inside = part.is_pressed(faces.front());
    if (!even(here.thickness, *wall) || inside == part.is_pressed(here.beyond)) continue;
    const double to_edge = distance_to(edge, here.from);
    const double to_opening = distance_to(openings, here.from);
    if (!(std::min(to_edge, to_opening) > most_room)) continue;
    most_room = std::min(to_edge, to_opening);
    shape.pressed_inside = inside;
    shape.wall = shape.wall_greatest = here.thickness;
    const Eigen::Vector3d far = here.from + here.thickness * here.inward;
    const Eigen::Vector3d tangent = here.inward.unitOrthogonal();
    shape.place = {.from = inside ? here.from : far,
                   .to = inside ? far : here.from,
                   .pulls = {tangent, here.inward.cross(tangent)},
                   .side = WallSide::greater,
                   .to_edge = to_edge,
                   .to_opening = to_opening};
  }
  if (most_room < 0.0) return std::nullopt;
  return shape;
}

}  // namespace

std::vector<SimpleShape> sphere_shapes(const PressedBody& part) {
  std::vector<SimpleShape> shapes;
  for (const auto& faces : hollow_spheres(part))
    if (auto shape = dome_of(part, faces)) shapes.push_back(std::move(*shape));
  return shapes;
}

}  // namespace crossgrain
