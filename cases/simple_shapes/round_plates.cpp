// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/round_plates.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/simple_shapes/circles.h"

namespace crossgrain {
namespace {

constexpr int spokes = 24;
constexpr double least_radius_over_wall = 2.0;

class RoundPlate {
 public:
  RoundPlate(const PressedBody& part, const CadFace& face, const Circle& circle)
      : plate_(part, face),
        circle_(circle),
        x_(face.axis.unitOrthogonal()),
        y_(face.axis.cross(x_)) {}

  std::optional<Plate> found() {
    if (!plate_.learn_wall(points()) || !find_edge() ||
        span_ < least_radius_over_wall * plate_.wall())
      return std::nullopt;
    SimpleShape shape = plate_.shape(ShapeKind::round_plate, span_, held_by_walls_);
    if (held_by_walls_) shape.edge = edge_line();
    const auto middle = middle_line();
    if (!middle) return std::nullopt;
    shape.place = *middle;
    return Plate{shape, plate_.face().id, plate_.opposite()};
  }

 private:
  Eigen::Vector3d direction(int spoke) const {
    const double angle = 2.0 * std::numbers::pi * spoke / spokes;
    return std::cos(angle) * x_ + std::sin(angle) * y_;
  }
  Eigen::Vector3d at(double radius, int spoke) const {
    return circle_.centre + radius * direction(spoke);
  }

  std::vector<Eigen::Vector3d> points() const {
    std::vector<Eigen::Vector3d> all;
    constexpr int rings = 6;
    // Rings of equal area.
    for (int ring = 0; ring < rings; ++ring)
      for (int spoke = 0; spoke < spokes; ++spoke)
        all.push_back(at(circle_.radius * std::sqrt((ring + 0.5) / rings), spoke));
    return all;
  }

  /// Whether it is held, and how far apart.
  bool find_edge() {
    std::vector<double> spans;
    const double start = 0.5 * circle_.radius;
    // One wall above the face a fillet of that size has just ended.
    const double fillet = std::max(1.5 * plate_.wall(), 0.25 * circle_.radius);
    for (int spoke = 0; spoke < spokes; ++spoke) {
      const auto hit = plate_.to_standing_wall(at(start, spoke), direction(spoke));
      const double span = start + hit.value_or(0.0);
      if (hit && span > 0.99 * circle_.radius && span < circle_.radius + fillet)
        spans.push_back(span);
    }
    held_by_walls_ = spans.size() >= spokes * 3 / 4;
    span_ = held_by_walls_ ? median_of(spans) : circle_.radius;
    if (held_by_walls_) return true;
    return spans.size() <= spokes / 4 && plate_.itself_pressed() && plate_.ends_at_a_seal();
  }

  std::optional<WallLine> line_at(double radius, int spoke, WallSide side) const {
    const auto reading = plate_.wall_at(at(radius, spoke));
    if (!reading || !even(reading->thickness, plate_.wall())) return std::nullopt;
    WallLine line = plate_.line(*reading, direction(spoke), side, span_ - radius);
    line.at_radius = radius;
    return line;
  }

  std::optional<WallLine> edge_line() const {
    const double radius = std::min(0.999 * circle_.radius, span_ - 0.5 * plate_.wall());
    std::optional<WallLine> best;
    for (int spoke = 0; spoke < spokes; ++spoke) {
      const auto line = line_at(radius, spoke, WallSide::pressed);
      if (line && (!best || line->to_opening > best->to_opening)) best = line;
    }
    return best;
  }

  /// As near to the middle as a hole there allows.
  std::optional<WallLine> middle_line() const {
    constexpr int rings = 20;
    std::optional<WallLine> beside_a_hole;
    for (int ring = 0; ring < rings; ++ring) {
      std::optional<WallLine> best;
      for (int spoke = 0; spoke < spokes; ++spoke) {
        const auto line = line_at(0.7 * circle_.radius * ring / rings, spoke, WallSide::other);
        if (line && (!best || line->to_opening > best->to_opening)) best = line;
      }
      if (best && best->to_opening >= plate_.wall()) return best;
      if (!beside_a_hole) beside_a_hole = best;
    }
    return beside_a_hole;
  }

  PlateFace plate_;
  Circle circle_;
  Eigen::Vector3d x_, y_;
  bool held_by_walls_ = false;
  double span_ = 0.0;
};

}  // namespace

std::optional<Plate> round_plate(const PressedBody& part, const CadFace& face) {
  if (face.kind != SurfaceKind::plane) return std::nullopt;
  const auto circle = circle_of(part.geometry, face, 0);
  if (!circle) return std::nullopt;
  return RoundPlate(part, face, *circle).found();
}

}  // namespace crossgrain
