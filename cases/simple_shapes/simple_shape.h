// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// Which surface of a wall a textbook value speaks of.
enum class WallSide { pressed, other, greater };

/// A line straight through a wall, and what lies near it.
struct WallLine {
  static constexpr double none = std::numeric_limits<double>::infinity();

  Eigen::Vector3d from = Eigen::Vector3d::Zero();  ///< on the pressed surface [mm]
  Eigen::Vector3d to = Eigen::Vector3d::Zero();    ///< on the other surface [mm]
  std::vector<Eigen::Vector3d> pulls = {};  ///< unit; normal stresses along them are averaged
  WallSide side = WallSide::greater;        ///< where the textbook value counts
  double to_edge = none;     ///< from the nearest end, step or held edge of the shape [mm]
  double to_opening = none;  ///< from the nearest hole's rim; infinity: none [mm]
  double at_radius = 0.0;    ///< round plate: from its middle [mm]
};

enum class ShapeKind { cylinder, sphere, round_plate, rectangular_plate };

/// A piece of a part that a textbook has a formula for.
struct SimpleShape {
  ShapeKind kind;
  BodyId body;
  std::vector<FaceId> faces;   ///< ascending
  bool pressed_inside = true;  ///< shells: the fluid is in the hollow, not around it
  bool held_by_walls = false;  ///< plates: walls or ribs stand on the edge; else it rests on a seal
  double radius = 0.0;         ///< inner; round plate: to the wall; half the short side [mm]
  double wall = 0.0;           ///< at the place, along its line [mm]
  double wall_greatest = 0.0;  ///< round about the place, along lines square to both surfaces [mm]
  double length = 0.0;         ///< cylinder between its ends; long side of a rectangle [mm]
  WallLine place = {};         ///< as far from edges as the shape allows; plates: the middle
  /// Cylinders whose one end the part itself closes: the place, pulled along the axis.
  std::optional<WallLine> along_axis = {};
  std::optional<WallLine> edge = {};  ///< plates held by walls: half a thickness inside the edge
};

inline bool is_shell(const SimpleShape& shape) {
  return shape.kind == ShapeKind::cylinder || shape.kind == ShapeKind::sphere;
}

}  // namespace crossgrain
