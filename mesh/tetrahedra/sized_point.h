// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

namespace crossgrain {

/// An edge length wanted at a place.
struct SizedPoint {
  Eigen::Vector3d point;  ///< [mm]
  double size;            ///< [mm]
};

/// A ball in which edges must not exceed a length.
struct SizeBall {
  Eigen::Vector3d centre;  ///< [mm]
  double radius;           ///< [mm]
  double size;             ///< [mm]
};

}  // namespace crossgrain
