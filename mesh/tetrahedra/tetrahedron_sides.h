// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// Corners, then middles, of the side of a quadratic tetrahedron opposite to corner i,
/// counter-clockwise from outside.
inline constexpr std::array<std::array<int, 6>, 4> tetrahedron_sides = {
    {{1, 2, 3, 5, 9, 8}, {0, 3, 2, 7, 9, 6}, {0, 1, 3, 4, 8, 7}, {0, 2, 1, 6, 5, 4}}};

/// A side of a tetrahedron, to be found by its corners.
struct TetrahedronSide {
  std::array<int, 3> corners;  ///< nodes, ascending
  int tetrahedron;
  int side;
};

/// All sides, sorted by corners: the two of a shared side stand together.
std::vector<TetrahedronSide> sorted_sides(const TetrahedronMesh& mesh);

/// The tetrahedron beyond each side; -1 where there is none.
std::vector<std::array<int, 4>> side_neighbours(const TetrahedronMesh& mesh);

}  // namespace crossgrain
