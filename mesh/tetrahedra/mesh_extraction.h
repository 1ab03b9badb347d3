// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/step/conformal_shape.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// A mesh and what Gmsh calls its nodes.
struct ExtractedMesh {
  TetrahedronMesh mesh;
  std::vector<std::size_t> node_tags;
};

/// Take the mesh out of Gmsh's current model. While its edges are straight (order 1) the middles'
/// numbers are -1.
/// @throws MeshingFailure if a volume or face was left without elements.
ExtractedMesh extract_mesh(const ConformalShape& shape, int order);

}  // namespace crossgrain
