// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// A flat piece of a boundary triangle: all of a straight one, a quarter of a curved one, so that
/// neighbours share the same edges.
struct FlatPiece {
  int triangle;
  Eigen::Matrix3d corners;            ///< columns [mm]
  Eigen::Matrix<double, 2, 3> local;  ///< the corners' local coordinates in the triangle
  Eigen::Vector3d normal;             ///< unit, outward
};

/// Pieces of these triangles; those without area are left out.
std::vector<FlatPiece> flat_pieces(const TetrahedronMesh& mesh, const std::vector<int>& triangles);

}  // namespace crossgrain
