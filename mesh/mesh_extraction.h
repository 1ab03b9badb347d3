// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include "mesh/conformal_shape.h"
#include "mesh/tetrahedron_mesh.h"

namespace crossgrain {

/// Corners, then middles, of the side of a quadratic tetrahedron opposite to corner i, outward.
inline constexpr std::array<std::array<int, 6>, 4> tetrahedron_sides = {
    {{1, 2, 3, 5, 9, 8}, {0, 3, 2, 7, 9, 6}, {0, 1, 3, 4, 8, 7}, {0, 2, 1, 6, 5, 4}}};

/// Take the quadratic mesh out of Gmsh's current model.
/// @throws MeshingFailure if a volume or face was left without elements.
TetrahedronMesh extract_mesh(const ConformalShape& shape);

}  // namespace crossgrain
