// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/rectangular_plates.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "cases/simple_shapes/face_rectangle.h"
#include "cases/simple_shapes/panel_walls.h"

namespace crossgrain {
namespace {

constexpr double least_short_side_over_wall = 4.0;
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

  bool find_edges() {
    const PanelWalls v =
        walls_across(plate_, box_.centre, box_.v, box_.half_v, box_.u, box_.half_u);
    const PanelWalls u =
        walls_across(plate_, box_.centre, box_.u, box_.half_u, box_.v, box_.half_v);
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
  const auto box = rectangle_of(part.geometry, face, plate.patch());
  if (!box) return std::nullopt;
  return RectangularPlate(std::move(plate), *box).found();
}

}  // namespace crossgrain
