// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/rectangular_plates.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>

namespace crossgrain {
namespace {

constexpr double least_short_side_over_wall = 4.0;
/// Of its box: rounded corners take a few per cent, a disc a fifth (common practice, no source).
constexpr double least_fill = 0.93;

/// A flat face's box: axes along the sides, u the longer.
struct Rectangle {
  Eigen::Vector3d centre, u, v;
  double half_u, half_v;
  Eigen::Vector3d at(double share_u, double share_v) const {
    return centre + share_u * half_u * u + share_v * half_v * v;
  }
};

Rectangle box_along(const FacePatch::Rim& rim, const Eigen::Vector3d& normal,
                    const Eigen::Vector3d& u) {
  const Eigen::Vector3d v = normal.cross(u);
  Eigen::Vector2d low = Eigen::Vector2d::Constant(std::numeric_limits<double>::infinity());
  Eigen::Vector2d high = -low;
  for (const FacePatch::Segment& segment : rim) {
    const Eigen::Vector2d here(segment.a.dot(u), segment.a.dot(v));
    const Eigen::Vector2d next(segment.b.dot(u), segment.b.dot(v));
    low = low.cwiseMin(here).cwiseMin(next);
    high = high.cwiseMax(here).cwiseMax(next);
  }
  const Eigen::Vector2d middle = 0.5 * (low + high), half = 0.5 * (high - low);
  const Eigen::Vector3d centre = middle[0] * u + middle[1] * v + rim.front().a.dot(normal) * normal;
  if (half[0] >= half[1]) return {centre, u, v, half[0], half[1]};
  return {centre, v, -u, half[1], half[0]};
}

double outer_area(const Geometry& geometry, const CadFace& face) {
  Eigen::Vector3d area = Eigen::Vector3d::Zero();
  for (const LoopEdge& side : face.loops.front())
    area += (side.forward ? 1.0 : -1.0) * geometry.edge(side.edge).swept_area;
  return area.norm();
}

std::optional<Rectangle> rectangle_of(const PressedBody& part, const CadFace& face,
                                      const FacePatch& patch) {
  if (face.kind != SurfaceKind::plane || face.loops.empty() || patch.rims().empty())
    return std::nullopt;
  std::optional<Rectangle> least;
  for (const FacePatch::Segment& segment : patch.rims().front()) {
    const Rectangle box =
        box_along(patch.rims().front(), face.axis, (segment.b - segment.a).normalized());
    if (!least || box.half_u * box.half_v < least->half_u * least->half_v) least = box;
  }
  if (outer_area(part.geometry, face) < least_fill * 4.0 * least->half_u * least->half_v)
    return std::nullopt;
  return least;
}

class RectangularPlate {
 public:
  RectangularPlate(PlateFace plate, const Rectangle& box) : plate_(std::move(plate)), box_(box) {}

  std::optional<Plate> found() {
    if (!plate_.learn_wall(points()) || !find_edges() ||
        half_short_ * 2.0 < least_short_side_over_wall * plate_.wall())
      return std::nullopt;
    SimpleShape shape = plate_.shape(ShapeKind::rectangular_plate, half_short_, held_by_walls_);
    shape.length = long_side_;
    if (held_by_walls_) shape.edge = edge_line();
    const auto middle = middle_line();
    if (!middle) return std::nullopt;
    shape.place = *middle;
    return Plate{shape, plate_.face().id, plate_.opposite()};
  }

 private:
  std::vector<Eigen::Vector3d> points() const {
    std::vector<Eigen::Vector3d> all;
    constexpr int rows = 12;
    for (int i = 0; i < rows; ++i)
      for (int j = 0; j < rows; ++j)
        all.push_back(box_.at((2.0 * i + 1.0) / rows - 1.0, (2.0 * j + 1.0) / rows - 1.0));
    return all;
  }

  using On = PlateFace::On;

  /// From the middle line to the wall that stands along one side. @param along  to that side.
  std::optional<double> wall_of_side(const Eigen::Vector3d& along, double half,
                                     const Eigen::Vector3d& across, double half_across,
                                     On side) const {
    std::vector<double> distances;
    // One wall above the face a fillet of that size has just ended.
    const double fillet = std::max(1.5 * plate_.wall(), 0.25 * half);
    // Seen on the far side, the wall's own thickness ends the face later.
    const double least = side == On::this_side ? 0.95 * half : 0.95 * half - 2.0 * plate_.wall();
    for (const double share : {-0.5, -0.25, 0.0, 0.25, 0.5}) {
      const auto hit =
          plate_.to_standing_wall(box_.centre + share * half_across * across, along, side);
      if (hit && *hit > least && *hit < half + fillet) distances.push_back(*hit);
    }
    if (distances.size() < 4) return std::nullopt;
    return median_of(distances);
  }

  /// The walls along both sides of one kind, from the middle line; and whether they stand on the
  /// face itself. Ribs do; the ends of a ribbed wall are held by walls on its far side.
  struct Walls {
    std::optional<double> plus, minus;
    bool on_this_side = true;
    bool both() const { return plus && minus; }
  };
  Walls walls_across(const Eigen::Vector3d& along, double half, const Eigen::Vector3d& across,
                     double half_across) const {
    Walls walls;
    for (const On side : {On::this_side, On::far_side}) {
      walls = {wall_of_side(along, half, across, half_across, side),
               wall_of_side(-along, half, across, half_across, side), side == On::this_side};
      if (walls.both()) break;
    }
    return walls;
  }

  bool find_edges() {
    const Walls v = walls_across(box_.v, box_.half_v, box_.u, box_.half_u);
    const Walls u = walls_across(box_.u, box_.half_u, box_.v, box_.half_v);
    half_short_ = box_.half_v;
    long_side_ = 2.0 * box_.half_u;
    middle_ = box_.centre;
    held_by_walls_ = v.both() && (v.on_this_side || (u.both() && u.on_this_side));
    if (held_by_walls_) {
      half_short_ = 0.5 * (*v.plus + *v.minus);
      middle_ += 0.5 * (*v.plus - *v.minus) * box_.v;
      if (u.both()) {
        long_side_ = *u.plus + *u.minus;
        middle_ += 0.5 * (*u.plus - *u.minus) * box_.u;
      }
      // A table of plates starts with the square one; nearly square ones may come out a little
      // wide.
      long_side_ = std::max(long_side_, 2.0 * half_short_);
      return u.both() || (!u.plus && !u.minus && long_side_ > 4.0 * half_short_);
    }
    return !v.plus && !v.minus && !u.plus && !u.minus && plate_.itself_pressed() &&
           plate_.ends_at_a_seal();
  }

  std::optional<WallLine> line_at(double along, double across, WallSide side) const {
    const auto reading = plate_.wall_at(middle_ + along * box_.half_u * box_.u + across * box_.v);
    if (!reading || !even(reading->thickness, plate_.wall())) return std::nullopt;
    return plate_.line(*reading, box_.v, side, half_short_ - std::abs(across));
  }

  /// Half a thickness inside the middle of a long side, or where a fillet there begins.
  std::optional<WallLine> edge_line() const {
    std::optional<WallLine> best;
    for (const double sense : {1.0, -1.0}) {
      const double to_fillet = 0.999 * box_.half_v + sense * (box_.centre - middle_).dot(box_.v);
      const double across = std::min(to_fillet, half_short_ - 0.5 * plate_.wall());
      const auto line = line_at(0.0, sense * across, WallSide::pressed);
      if (line && (!best || line->to_opening > best->to_opening)) best = line;
    }
    return best;
  }

  std::optional<WallLine> middle_line() const {
    std::optional<WallLine> beside_a_hole;
    for (const double away : {0.0, 0.1, 0.2, 0.3, 0.4}) {
      for (const double along : {away, -away}) {
        for (const double across : {0.0, away, -away}) {
          const auto line = line_at(along, across * half_short_, WallSide::other);
          if (line && line->to_opening >= plate_.wall()) return line;
          if (!beside_a_hole) beside_a_hole = line;
        }
      }
    }
    return beside_a_hole;
  }

  PlateFace plate_;
  Rectangle box_;
  bool held_by_walls_ = false;
  double half_short_ = 0.0, long_side_ = 0.0;
  Eigen::Vector3d middle_ = Eigen::Vector3d::Zero();
};

}  // namespace

std::optional<Plate> rectangular_plate(const PressedBody& part, const CadFace& face) {
  if (face.kind != SurfaceKind::plane) return std::nullopt;
  PlateFace plate(part, face);
  const auto box = rectangle_of(part, face, plate.patch());
  if (!box) return std::nullopt;
  return RectangularPlate(std::move(plate), *box).found();
}

}  // namespace crossgrain
