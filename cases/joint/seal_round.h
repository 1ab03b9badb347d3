// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/joint/leak_path.h"

namespace crossgrain {

/// A seal as one walks round it: its places sorted into stations by their angle about its middle.
struct SealRound {
  Eigen::Vector3d middle;  ///< [mm]
  Eigen::Vector3d zero;  ///< unit, in the seal's plane, where angles begin: nearest to +x, else +y
  Eigen::Vector3d quarter;  ///< unit, in the seal's plane, at 90 degrees; the third axis is upwards

  struct Station {
    double angle;              ///< of its middle, 0 to 2 pi
    std::vector<int> places;   ///< at least one
    Eigen::Vector3d position;  ///< mean of its places [mm]
  };
  std::vector<Station> stations;  ///< by angle; without such that have no place

  /// Angle of any position, 0 to 2 pi.
  double angle_of(const Eigen::Vector3d& position) const;
};

/// @param places    of a flat seal  @param stations  that a full round has
/// @throws std::invalid_argument without places.
SealRound seal_round(const std::vector<SealPoint>& places, int stations = 72);

/// The greatest contact across the seal at every station, averaged as `averaged_contact` does: what
/// a fluid must overcome that goes straight across there [MPa].
std::vector<double> contact_round(const SealRound& round, const std::vector<SealPoint>& places,
                                  double width);

}  // namespace crossgrain
