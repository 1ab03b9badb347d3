// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// Curved elements whose determinant may fall below this share of the straight element's are
/// tangled: they are straightened [-]. Common practice, no source.
inline constexpr double least_jacobian_share = 0.1;

/// Elements that are tangled.
std::vector<int> tangled_elements(const TetrahedronMesh& mesh);

/// Move the middle nodes of tangled elements towards the straight edges, half way first, until no
/// element is tangled. Neighbours share the nodes and so stay conformal.
/// @return the number of elements that were tangled.
/// @throws MeshingFailure if an element is flat or inverted even with straight edges.
int straighten_tangled(TetrahedronMesh& mesh);

}  // namespace crossgrain
