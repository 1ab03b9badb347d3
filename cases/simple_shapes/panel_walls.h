// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/simple_shapes/plate_face.h"

namespace crossgrain {

/// The walls along both sides of one kind, from the middle line; and whether they stand on the
/// face itself. Ribs do; the ends of a ribbed wall are held by walls on its far side.
struct PanelWalls {
  std::optional<double> plus, minus;
  bool on_this_side = true;
  bool both() const { return plus && minus; }
};

/// @param middle  of the face [mm].  @param along  unit, to one of the sides, `half` from the
/// middle [mm].  @param across  unit, along those sides, half as long as `half_across` [mm].
PanelWalls walls_across(const PlateFace& plate, const Eigen::Vector3d& middle,
                        const Eigen::Vector3d& along, double half, const Eigen::Vector3d& across,
                        double half_across);

}  // namespace crossgrain
