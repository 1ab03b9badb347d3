// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/studies/direction_map.h"

namespace crossgrain {

/// A direction to be shown on the map by its name and its factor.
struct MarkedDirection {
  std::string name;
  Eigen::Vector3d direction;
};

/// The half-sphere of build directions in Lambert's equal-area projection, seen along -z: x to the
/// right, y up, directions in the plane xy on the rim. Colours go from dark blue (weakest) to
/// yellow (strongest), even in lightness, so that they can be told apart by everyone and in grey.
/// @param marked  those below the half-sphere are shown by their opposite.
std::string direction_map_svg(const DirectionMap& map, const std::vector<MarkedDirection>& marked);

}  // namespace crossgrain
