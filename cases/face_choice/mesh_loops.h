// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// A closed loop of mesh edges where a set of faces ends, and what a surface that caps it would
/// carry. Integrals are exact on the curved edges, so that caps and faces together are closed to
/// rounding.
struct MeshLoop {
  Eigen::Vector3d middle;       ///< mean of the loop's nodes [mm]
  Eigen::Vector3d vector_area;  ///< of the cap, out of the cavity that the faces bound [mm^2]
  Eigen::Vector3d moment_area;  ///< integral over the cap of x cross n [mm^3]
};

/// The loops that bound these faces; none if they are closed.
std::vector<MeshLoop> boundary_loops(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces);

}  // namespace crossgrain
