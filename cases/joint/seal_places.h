// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "cases/joint/leak_path.h"

namespace crossgrain {

/// An edge of a pressed face, sampled.
struct SealEdge {
  std::vector<Eigen::Vector3d> line;  ///< points along it, closer than `reach` [mm]
  std::optional<SealExit> exit;       ///< none: the fluid wets it
};

/// Places of a face that is known by points: neighbours are all within `reach` of each other,
/// places within `reach` of an edge lie on it.
/// @param positions  [mm]  @param areas  [mm^2]
/// @param reach      about twice the distance of neighbouring points, and less than what parts
///                   ways that do not meet: a slit, a thin wall [mm]
/// @throws std::invalid_argument if an edge has no place near it.
std::vector<SealPoint> seal_places(const std::vector<Eigen::Vector3d>& positions,
                                   const std::vector<double>& areas,
                                   const std::vector<SealEdge>& edges, double reach);

}  // namespace crossgrain
