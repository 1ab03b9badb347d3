// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/panel_walls.h"

#include <algorithm>

namespace crossgrain {
namespace {

using On = PlateFace::On;

/// From the middle line to the wall that stands along one side. @param along  to that side.
std::optional<double> wall_of_side(const PlateFace& plate, const Eigen::Vector3d& middle,
                                   const Eigen::Vector3d& along, double half,
                                   const Eigen::Vector3d& across, double half_across, On side) {
  std::vector<double> distances;
  // One wall above the face a fillet of that size has just ended.
  const double fillet = std::max(1.5 * plate.wall(), 0.25 * half);
  // Seen on the far side, the wall's own thickness ends the face later.
  const double least = side == On::this_side ? 0.95 * half : 0.95 * half - 2.0 * plate.wall();
  for (const double share : {-0.5, -0.25, 0.0, 0.25, 0.5}) {
    const auto hit = plate.to_standing_wall(middle + share * half_across * across, along, side);
    if (hit && *hit > least && *hit < half + fillet) distances.push_back(*hit);
  }
  if (distances.size() < 4) return std::nullopt;
  return median_of(distances);
}

}  // namespace

PanelWalls walls_across(const PlateFace& plate, const Eigen::Vector3d& middle,
                        const Eigen::Vector3d& along, double half, const Eigen::Vector3d& across,
                        double half_across) {
  PanelWalls walls;
  for (const On side : {On::this_side, On::far_side}) {
    walls = {wall_of_side(plate, middle, along, half, across, half_across, side),
             wall_of_side(plate, middle, -along, half, across, half_across, side),
             side == On::this_side};
    if (walls.both()) break;
  }
  return walls;
}

}  // namespace crossgrain
