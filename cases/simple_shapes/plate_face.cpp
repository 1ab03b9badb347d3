// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/plate_face.h"

#include <algorithm>
#include <map>

namespace crossgrain {

PlateFace::PlateFace(const PressedBody& part, const CadFace& face)
    : part_(part),
      face_(face),
      patch_(part.geometry, {face.id}),
      openings_(segments_from(patch_.rims(), 1)) {}

std::optional<WallReading> PlateFace::wall_at(const Eigen::Vector3d& point) const {
  const double step = 1e-3 * part_.geometry.box.diagonal();
  const auto hit = part_.rays.first_hit(point + step * face_.axis, -face_.axis);
  if (!hit || hit->face != face_.id || hit->distance > 2.0 * step) return std::nullopt;
  return read_wall(part_.geometry, part_.rays, point, -face_.axis);
}

bool PlateFace::learn_wall(const std::vector<Eigen::Vector3d>& points) {
  constexpr double share_of_face = 0.75, share_of_wall = 0.6;
  std::vector<WallReading> readings;
  for (const Eigen::Vector3d& point : points)
    if (const auto reading = wall_at(point); reading && reading->square)
      readings.push_back(*reading);
  if (static_cast<double>(readings.size()) < share_of_face * static_cast<double>(points.size()))
    return false;
  std::vector<double> walls;
  for (const WallReading& reading : readings) walls.push_back(reading.thickness);
  wall_ = median_of(walls);
  std::sort(walls.begin(), walls.end());
  wall_greatest_ = walls[walls.size() * 9 / 10];
  std::map<FaceId, int> beyond;
  int like = 0;
  for (const WallReading& reading : readings) {
    ++beyond[reading.beyond];
    like += even(reading.thickness, wall_);
  }
  opposite_ = std::max_element(beyond.begin(), beyond.end(), [](const auto& a, const auto& b) {
                return a.second < b.second;
              })->first;
  return like >= share_of_wall * static_cast<double>(readings.size()) &&
         itself_pressed() != part_.is_pressed(opposite_);
}

std::optional<double> PlateFace::to_standing_wall(const Eigen::Vector3d& point,
                                                  const Eigen::Vector3d& along, On side) const {
  const double above = side == On::this_side ? wall_ : -2.0 * wall_;
  const Eigen::Vector3d from = point + above * face_.axis;
  const auto hit = part_.rays.first_hit(from, along);
  if (!hit || !hit->from_outside) return std::nullopt;
  return exact_distance(part_.geometry.face(hit->face), from, along, hit->distance);
}

bool PlateFace::ends_at_a_seal() const {
  if (face_.loops.empty()) return false;
  return std::all_of(face_.loops.front().begin(), face_.loops.front().end(),
                     [&](const LoopEdge& side) {
                       const auto& faces = part_.geometry.edge(side.edge).faces;
                       return std::none_of(faces.begin(), faces.end(), [&](FaceId other) {
                         return other != face_.id && part_.is_pressed(other);
                       });
                     });
}

WallLine PlateFace::line(const WallReading& reading, const Eigen::Vector3d& pull, WallSide side,
                         double to_edge) const {
  const Eigen::Vector3d far = reading.from + reading.thickness * reading.inward;
  return {.from = itself_pressed() ? reading.from : far,
          .to = itself_pressed() ? far : reading.from,
          .pulls = {pull},
          .side = side,
          .to_edge = to_edge,
          .to_opening = distance_to(openings_, reading.from)};
}

SimpleShape PlateFace::shape(ShapeKind kind, double half_span, bool held_by_walls) const {
  SimpleShape shape{.kind = kind, .body = face_.body, .faces = {face_.id}};
  shape.held_by_walls = held_by_walls;
  shape.radius = half_span;
  shape.wall = wall_;
  shape.wall_greatest = wall_greatest_;
  return shape;
}

}  // namespace crossgrain
