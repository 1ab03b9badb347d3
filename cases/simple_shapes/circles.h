// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

struct Circle {
  Eigen::Vector3d centre;  ///< [mm]
  double radius;           ///< [mm]
};

/// The circle that all edges of a face's loop lie on; nothing if there is none, or no such loop.
/// @param loop  0: the outer boundary.
std::optional<Circle> circle_of(const Geometry& geometry, const CadFace& face, std::size_t loop);

}  // namespace crossgrain
