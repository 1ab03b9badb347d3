// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/tetrahedron_sides.h"

#include <algorithm>

namespace crossgrain {

std::vector<TetrahedronSide> sorted_sides(const TetrahedronMesh& mesh) {
  std::vector<TetrahedronSide> sides;
  sides.reserve(4 * static_cast<std::size_t>(mesh.tetrahedron_count()));
  for (int e = 0; e < mesh.tetrahedron_count(); ++e) {
    for (int s = 0; s < 4; ++s) {
      const auto& local = tetrahedron_sides[static_cast<std::size_t>(s)];
      std::array<int, 3> corners{mesh.tetrahedra(local[0], e), mesh.tetrahedra(local[1], e),
                                 mesh.tetrahedra(local[2], e)};
      std::sort(corners.begin(), corners.end());
      sides.push_back({corners, e, s});
    }
  }
  std::sort(sides.begin(), sides.end(), [](const TetrahedronSide& a, const TetrahedronSide& b) {
    return a.corners != b.corners ? a.corners < b.corners : a.tetrahedron < b.tetrahedron;
  });
  return sides;
}

std::vector<std::array<int, 4>> side_neighbours(const TetrahedronMesh& mesh) {
  const std::vector<TetrahedronSide> sides = sorted_sides(mesh);
  std::vector<std::array<int, 4>> neighbours(static_cast<std::size_t>(mesh.tetrahedron_count()),
                                             {-1, -1, -1, -1});
  for (std::size_t i = 1; i < sides.size(); ++i) {
    const TetrahedronSide &a = sides[i - 1], &b = sides[i];
    if (a.corners != b.corners) continue;
    neighbours[static_cast<std::size_t>(a.tetrahedron)][static_cast<std::size_t>(a.side)] =
        b.tetrahedron;
    neighbours[static_cast<std::size_t>(b.tetrahedron)][static_cast<std::size_t>(b.side)] =
        a.tetrahedron;
  }
  return neighbours;
}

}  // namespace crossgrain
