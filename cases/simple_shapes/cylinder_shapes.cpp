// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/cylinder_shapes.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "cases/simple_shapes/bore_runs.h"
#include "cases/simple_shapes/closed_ends.h"
#include "cases/simple_shapes/face_patch.h"
#include "cases/simple_shapes/wall_reading.h"

namespace crossgrain {
namespace {

// Lame's bore stress is then within 6 % of the pressure itself: no shell any more.
constexpr double thickest_over_radius = 5.0;
/// Rims of cross holes: those that do not run along the bore's ends.
std::vector<FacePatch::Segment> openings_in(const HoleWall& bore, const Geometry& geometry) {
  const double margin = 0.02 * (bore.high - bore.low);
  std::vector<FacePatch::Segment> openings;
  const FacePatch patch(geometry, bore.faces);
  for (const FacePatch::Rim& rim : patch.rims()) {
    for (const FacePatch::Segment& segment : rim) {
      const double along = (segment.middle() - bore.origin).dot(bore.axis);
      if (along > bore.low + margin && along < bore.high - margin) openings.push_back(segment);
    }
  }
  return openings;
}

/// A wall that is pressed from inside or from outside, not from both.
std::optional<bool> pressed_inside(const PressedBody& part, const HoleWall& bore,
                                   const WallReading& reading) {
  const bool inside = std::any_of(bore.faces.begin(), bore.faces.end(),
                                  [&](FaceId face) { return part.is_pressed(face); });
  if (inside == part.is_pressed(reading.beyond)) return std::nullopt;
  return inside;
}

struct Candidate {
  WallReading reading;
  double to_edge, to_opening;
  double room() const { return std::min(to_edge, to_opening); }
};

SimpleShape shape_of(const PressedBody& part, const HoleWall& bore, const Candidate& best,
                     double wall_greatest, bool inside) {
  SimpleShape shape{.kind = ShapeKind::cylinder, .body = part.body.id, .faces = bore.faces};
  shape.pressed_inside = inside;
  shape.radius = bore.radius;
  shape.wall = best.reading.thickness;
  shape.wall_greatest = wall_greatest;
  shape.length = bore.high - bore.low;
  const Eigen::Vector3d far = best.reading.from + shape.wall * best.reading.inward;
  shape.place = {.from = inside ? best.reading.from : far,
                 .to = inside ? far : best.reading.from,
                 .pulls = {bore.axis.cross(best.reading.inward).normalized()},
                 .side = WallSide::greater,
                 .to_edge = best.to_edge,
                 .to_opening = best.to_opening};
  return shape;
}

std::optional<SimpleShape> shape_round(const PressedBody& part, const HoleWall& bore) {
  const std::vector<BoreStation> all = bore_stations(part, bore);
  const auto run = run_that_counts(all);
  const auto openings = openings_in(bore, part.geometry);
  const double low = run ? run->low : bore.low, high = run ? run->high : bore.high;

  std::optional<Candidate> best;
  double greatest = 0.0;
  for (const BoreStation& station : all) {
    if (run && (station.along < low || station.along > high)) continue;
    for (const WallReading& reading : station.readings) {
      greatest = std::max(greatest, reading.thickness);
      if (run && !even(reading.thickness, run->wall)) continue;
      const Candidate here{reading, std::min(station.along - low, high - station.along),
                           distance_to(openings, reading.from)};
      const auto better = [&] {
        // In a block the least wall comes first, to 1 %.
        const double change = best->reading.thickness - reading.thickness;
        if (!run && std::abs(change) > 0.01 * reading.thickness) return change > 0.0;
        return here.room() > best->room();
      };
      if (!best || better()) best = here;
    }
  }
  if (!best || best->reading.thickness > thickest_over_radius * bore.radius) return std::nullopt;
  // Shorter than its wall is thick it is the hole of a plate.
  if (high - low < best->reading.thickness) return std::nullopt;
  const auto inside = pressed_inside(part, bore, best->reading);
  if (!inside) return std::nullopt;
  SimpleShape shape =
      shape_of(part, bore, *best, run ? best->reading.thickness : greatest, *inside);
  // In a block the thrust spreads over more than a tube's wall.
  if (run && has_closed_end(part, shape, bore.axis)) {
    shape.along_axis = shape.place;
    shape.along_axis->pulls = {bore.axis};
  }
  return shape;
}

}  // namespace

std::vector<SimpleShape> cylinder_shapes(const PressedBody& part) {
  std::vector<SimpleShape> shapes;
  for (const HoleWall& bore : find_hole_walls(part.geometry)) {
    if (bore.body != part.body.id) continue;
    if (auto shape = shape_round(part, bore)) shapes.push_back(std::move(*shape));
  }
  return shapes;
}

}  // namespace crossgrain
