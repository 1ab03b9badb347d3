// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// The triangles on these faces, ascending.
/// @param wanted_for  named in the error.
/// @throws std::invalid_argument if no face is given, or one of them has no triangle in the mesh.
std::vector<int> triangles_on(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                              const char* wanted_for);

/// Positions of a triangle's six nodes: 3 x 6 [mm].
inline Eigen::Matrix<double, 3, 6> triangle_positions(const TetrahedronMesh& mesh, int triangle) {
  Eigen::Matrix<double, 3, 6> positions;
  for (int i = 0; i < 6; ++i) positions.col(i) = mesh.nodes.col(mesh.triangles(i, triangle));
  return positions;
}

}  // namespace crossgrain
