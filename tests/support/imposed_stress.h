// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "solver/stress/element_stress.h"

namespace crossgrain::testing {

/// A field in space as the elements of a mesh see it: each its own least-squares fit, as of
/// stress. All six components are the field's value; volumes are left out.
ElementStress imposed_stress(const TetrahedronMesh& mesh,
                             const std::function<double(const Eigen::Vector3d&)>& field);

}  // namespace crossgrain::testing
