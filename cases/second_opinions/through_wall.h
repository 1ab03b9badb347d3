// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>

#include "cases/simple_shapes/simple_shape.h"
#include "solver/location/point_location.h"
#include "solver/stress/stress_interpolation.h"

namespace crossgrain {

/// A stress through a wall as a mean and a linear part; what is left over is the peak.
struct LinearisedStress {
  double membrane;  ///< the mean [MPa]
  double bending;   ///< the linear part at the far surface; the other sign at the pressed one [MPa]

  /// Membrane and bending together on one surface [MPa].
  double on(WallSide side) const;
};

/// membrane = integral of s over the wall / t, bending = 6 / t^2 integral of s (x - t / 2).
/// Source: common pressure-vessel practice; ASME BPVC VIII-2, annex 5-A (from memory).
/// @param stress  [MPa] at a share of the wall, 0 on the pressed surface, 1 on the other.
LinearisedStress linearised(const std::function<double(double)>& stress);

/// Stress of one load at the nodes of a mesh.
struct StressOnMesh {
  const TetrahedronMesh& mesh;
  const PointLocator& locator;
  const std::vector<StressPoint>& points;
  const Eigen::Matrix<double, 6, Eigen::Dynamic>& stress;  ///< [MPa], global axes
};

/// The normal stress along the line's pulls, through the wall. Nothing if the line leaves the mesh.
std::optional<LinearisedStress> linearised_along(const WallLine& line, const StressOnMesh& field);

}  // namespace crossgrain
