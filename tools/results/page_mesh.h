// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "tools/results/run_outputs.h"

namespace crossgrain {

/// The mesh as a page carries it. Vertices are stress points, numbered anew: corners in the order
/// in which the tetrahedra meet them, then middles of edges in the order in which the tetrahedra
/// meet their edges (01 12 20 03 13 23), so that the page finds the middles' numbers by itself.
/// Tetrahedra stand body by body, neighbours near one another.
struct PageMesh {
  std::vector<int> point_of_vertex;             ///< position in RunOutputs::points
  std::size_t corners;                          ///< the first so many vertices
  std::vector<std::array<int, 2>> middle_ends;  ///< of each vertex after them: its edge's ends
  std::vector<std::array<int, 4>> tetrahedra;   ///< corners
  std::vector<std::uint32_t> surface;           ///< 4 * tetrahedron + corner opposite, by CAD face
  std::vector<FaceId> face_of_surface;          ///< CAD face of each of those
  std::vector<std::size_t> tetrahedra_of_body;  ///< how many, by body index
};

PageMesh page_mesh(const RunOutputs& outputs);

/// Corners as the page reads them: how far below the next number never met so far.
std::vector<std::uint32_t> connectivity_codes(const PageMesh& mesh);

/// Codes of a field at the vertices, as differences from what the page can foretell: the corner
/// before, and for a middle the mean of its edge's ends.
/// @param values  code of each vertex or of the corners alone, less than 65536.
std::vector<std::uint32_t> difference_codes(const PageMesh& mesh,
                                            const std::vector<std::uint32_t>& values);

}  // namespace crossgrain
