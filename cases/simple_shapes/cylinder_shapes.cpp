// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/cylinder_shapes.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/simple_shapes/face_patch.h"
#include "cases/simple_shapes/wall_reading.h"
#include "mesh/features/hole_walls.h"

namespace crossgrain {
namespace {

constexpr int stations = 41;
constexpr int spokes = 24;
// Lame's bore stress is then within 6 % of the pressure itself: no shell any more.
constexpr double thickest_over_radius = 5.0;
constexpr double share_of_even_spokes = 0.75;

/// The wall at one place along the bore, all round.
struct Station {
  double along;  ///< on the bore's axis [mm]
  std::vector<WallReading> readings;
  double wall = 0.0;  ///< median of the square ones [mm]
  bool ring = false;  ///< nearly the same all round
};

class BoreReader {
 public:
  BoreReader(const PressedBody& part, const HoleWall& bore)
      : part_(part), bore_(bore), x_(bore.axis.unitOrthogonal()), y_(bore.axis.cross(x_)) {}

  Station at(double along) const {
    Station station{along, {}, 0.0, false};
    std::vector<double> walls;
    for (int i = 0; i < spokes; ++i) {
      const double angle = 2.0 * std::numbers::pi * (i + 0.25) / spokes;
      const auto reading = spoke(along, std::cos(angle) * x_ + std::sin(angle) * y_);
      if (!reading || !reading->square) continue;
      station.readings.push_back(*reading);
      walls.push_back(reading->thickness);
    }
    station.wall = median_of(walls);
    const auto like = std::count_if(walls.begin(), walls.end(),
                                    [&](double wall) { return even(wall, station.wall); });
    station.ring = static_cast<double>(like) >= share_of_even_spokes * spokes;
    return station;
  }

 private:
  std::optional<WallReading> spoke(double along, const Eigen::Vector3d& outward) const {
    // From just within the bore: something else may stand in its middle.
    const double step = 0.02 * bore_.radius;
    const Eigen::Vector3d on_bore = bore_.at(along) + bore_.radius * outward;
    const auto hit = part_.rays.first_hit(on_bore - step * outward, outward);
    const bool there = hit && hit->distance < 2.0 * step && hit->from_outside &&
                       std::binary_search(bore_.faces.begin(), bore_.faces.end(), hit->face);
    if (!there) return std::nullopt;
    return read_wall(part_.geometry, part_.rays, on_bore, outward);
  }

  const PressedBody& part_;
  const HoleWall& bore_;
  Eigen::Vector3d x_, y_;
};

/// Stations from first to last with one wall.
struct Run {
  std::size_t first, last;
  double low, high;  ///< [mm]
  double wall;
  double length() const { return high - low; }
};

std::vector<Run> even_runs(const std::vector<Station>& all) {
  std::vector<Run> runs;
  const double half = 0.5 * (all[1].along - all[0].along);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!all[i].ring) continue;
    const bool goes_on =
        !runs.empty() && runs.back().last + 1 == i && even(runs.back().wall, all[i].wall);
    if (!goes_on) runs.push_back({i, i, all[i].along - half, 0.0, all[i].wall});
    runs.back().last = i;
    runs.back().high = all[i].along + half;
  }
  return runs;
}

/// The thinnest of those that are not much shorter than the longest.
std::optional<Run> run_that_counts(const std::vector<Run>& runs) {
  double longest = 0.0;
  for (const Run& run : runs) longest = std::max(longest, run.length());
  std::optional<Run> best;
  for (const Run& run : runs)
    if (run.length() >= 0.5 * longest && (!best || run.wall < best->wall)) best = run;
  return best;
}

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
  const BoreReader reader(part, bore);
  std::vector<Station> all;
  for (int i = 0; i < stations; ++i)
    all.push_back(reader.at(bore.low + (bore.high - bore.low) * (i + 0.5) / stations));
  const auto run = run_that_counts(even_runs(all));
  const auto openings = openings_in(bore, part.geometry);
  const double low = run ? run->low : bore.low, high = run ? run->high : bore.high;

  std::optional<Candidate> best;
  double greatest = 0.0;
  for (const Station& station : all) {
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
  return shape_of(part, bore, *best, run ? best->reading.thickness : greatest, *inside);
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
