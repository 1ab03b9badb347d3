// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "materials/elasticity/tensor.h"
#include "solver/location/point_location.h"
#include "solver/stress/stress_recovery.h"

namespace crossgrain {

/// Recovered stress [MPa] at a place, interpolated by the shape functions from the stress points of
/// that tetrahedron's body.
/// @param points  as stress_points orders them.  @param stress  6 x points.
Vector6d stress_at(const TetrahedronMesh& mesh, const std::vector<StressPoint>& points,
                   const Eigen::Matrix<double, 6, Eigen::Dynamic>& stress,
                   const MeshLocation& location);

}  // namespace crossgrain
