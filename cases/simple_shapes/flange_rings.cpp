// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/flange_rings.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/simple_shapes/wall_reading.h"

namespace crossgrain {
namespace {

using Eigen::Vector3d;

constexpr int steps = 40;  // across the ring

/// Directions from the centre midway between neighbouring screws.
std::vector<Vector3d> between_screws(const RingFace& at) {
  const Vector3d x = at.axis.unitOrthogonal(), y = at.axis.cross(x);
  std::vector<double> angles;
  for (const Hole& hole : at.holes) {
    const Vector3d from = hole.mouth - at.centre;
    angles.push_back(std::atan2(from.dot(y), from.dot(x)));
  }
  std::ranges::sort(angles);
  std::vector<Vector3d> directions;
  for (std::size_t i = 0; i < angles.size(); ++i) {
    const double next = i + 1 < angles.size() ? angles[i + 1] : angles[0] + 2.0 * std::numbers::pi;
    const double middle = 0.5 * (angles[i] + next);
    directions.push_back(std::cos(middle) * x + std::sin(middle) * y);
  }
  return directions;
}

class RingSection {
 public:
  RingSection(const Geometry& geometry, const RingFace& at)
      : geometry_(geometry), rays_(geometry, at.body), at_(at) {}

  /// Along one direction. Nothing if there is no bore or no edge.
  struct Reading {
    double inner, outer, height;
    double first_even;  ///< nearest to the bore with that height
  };
  std::optional<Reading> along(const Vector3d& out) const {
    // Just under the face: past what is broken off its edges, above what ends on a tube's outside.
    const Vector3d under = at_.centre + at_.radius * out - 0.02 * at_.radius * at_.axis;
    const auto edge = way_out(under, out), bore = way_out(under, -out);
    if (!edge || !bore) return std::nullopt;
    Reading reading{};
    reading.inner = at_.radius - *bore;
    reading.outer = at_.radius + *edge;
    if (!(reading.inner > 0.1 * at_.radius)) return std::nullopt;
    std::vector<double> heights;
    for (int i = 0; i < steps; ++i)
      heights.push_back(height_at(out, radius(reading, i)).value_or(0.0));
    // The outer half is the flange's own, whatever stands under the inner one.
    reading.height = median_of({heights.begin() + steps / 2, heights.end()});
    const auto first =
        std::ranges::find_if(heights, [&](double height) { return even(height, reading.height); });
    if (first == heights.end()) return std::nullopt;
    reading.first_even = radius(reading, static_cast<int>(first - heights.begin()));
    return reading;
  }

  WallLine line(const Vector3d& out, double r, double height) const {
    const Vector3d from = at_.centre + r * out;
    return {.from = from,
            .to = from - height * at_.axis,
            .pulls = {at_.axis.cross(out)},
            .side = WallSide::other,
            .to_edge = WallLine::none,
            .to_opening = to_screw(from),
            .at_radius = r};
  }

 private:
  /// From a point within the material to where a ray leaves it [mm].
  std::optional<double> way_out(const Vector3d& from, const Vector3d& along) const {
    const auto hit = rays_.first_hit(from, along);
    if (!hit || hit->from_outside) return std::nullopt;
    return exact_distance(geometry_.face(hit->face), from, along, hit->distance);
  }
  static double radius(const Reading& reading, int step) {
    return reading.inner + (reading.outer - reading.inner) * (step + 0.5) / steps;
  }
  std::optional<double> height_at(const Vector3d& out, double r) const {
    const auto reading = read_wall(geometry_, rays_, at_.centre + r * out, -at_.axis);
    return reading && reading->square ? std::optional(reading->thickness) : std::nullopt;
  }
  double to_screw(const Vector3d& point) const {
    double least = WallLine::none;
    for (const Hole& hole : at_.holes) {
      const Vector3d from = point - hole.mouth;
      const double aside = (from - at_.axis * at_.axis.dot(from)).norm();
      least = std::min(least, aside - 0.5 * hole.diameter);
    }
    return least;
  }

  const Geometry& geometry_;
  SurfaceRays rays_;
  const RingFace& at_;
};

/// A tube of the same body about the ring's axis, whose bore is the ring's.
std::optional<SimpleShape> tube_of(const RingFace& at, double inner,
                                   const std::vector<SimpleShape>& shapes) {
  for (const SimpleShape& shape : shapes) {
    if (shape.kind != ShapeKind::cylinder || shape.body != at.body || !shape.pressed_inside)
      continue;
    const Vector3d from = shape.place.from - at.centre;
    const double to_axis = (from - at.axis * at.axis.dot(from)).norm();
    if (even(shape.radius, inner) && even(to_axis, inner)) return shape;
  }
  return std::nullopt;
}

}  // namespace

std::optional<FlangeRing> flange_ring(const Geometry& geometry, const RingFace& at,
                                      const std::vector<SimpleShape>& shapes) {
  if (at.holes.size() < 2) return std::nullopt;
  const RingSection section(geometry, at);
  std::optional<RingSection::Reading> first;
  std::optional<FlangeRing> ring;
  for (const Vector3d& out : between_screws(at)) {
    const auto here = section.along(out);
    if (!here) return std::nullopt;
    if (!first) {
      first = here;
      ring = FlangeRing{.body = at.body,
                        .faces = {at.face},
                        .inner_radius = here->inner,
                        .outer_radius = here->outer,
                        .height = here->height,
                        .place = section.line(out, here->first_even, here->height),
                        .place_radius = here->first_even};
    }
    if (!even(here->inner, first->inner) || !even(here->outer, first->outer) ||
        !even(here->height, first->height))
      return std::nullopt;
  }
  ring->tube = tube_of(at, ring->inner_radius, shapes);
  return ring;
}

}  // namespace crossgrain
