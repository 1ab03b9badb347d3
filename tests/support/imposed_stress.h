// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "solver/stress/element_stress.h"

namespace crossgrain::testing {

/// A stress field in space [MPa], global axes.
using StressInSpace = std::function<Vector6d(const Eigen::Vector3d&)>;

/// A field in space as the elements of a mesh see it: each its own least-squares fit, as of
/// stress. Volumes are left out.
ElementStress imposed_stress(const TetrahedronMesh& mesh, const StressInSpace& field);

/// All six components of this value.
StressInSpace all_components(const std::function<double(const Eigen::Vector3d&)>& value);

}  // namespace crossgrain::testing
