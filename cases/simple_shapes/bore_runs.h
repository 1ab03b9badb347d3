// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "cases/simple_shapes/pressed_faces.h"
#include "cases/simple_shapes/wall_reading.h"
#include "mesh/features/hole_walls.h"

namespace crossgrain {

/// The wall of a bore at one place along it, all round.
struct BoreStation {
  double along;  ///< on the bore's axis [mm]
  std::vector<WallReading> readings;
  double wall = 0.0;  ///< median of the square ones [mm]
  bool ring = false;  ///< nearly the same all round
};

/// Evenly spread from end to end.
std::vector<BoreStation> bore_stations(const PressedBody& part, const HoleWall& bore);

/// Neighbouring stations with one wall all round.
struct BoreRun {
  std::size_t first, last;
  double low, high;  ///< along the axis [mm]
  double wall;
  double length() const { return high - low; }
};

/// The thinnest of those that are not much shorter than the longest; nothing in a block.
std::optional<BoreRun> run_that_counts(const std::vector<BoreStation>& stations);

}  // namespace crossgrain
