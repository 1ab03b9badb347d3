// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/elements/shape_functions.h"

namespace crossgrain {

/// All mid-side nodes in the middle of their edges, to round-off.
inline bool has_straight_edges(const TetrahedronMesh& mesh, Eigen::Index tetrahedron) {
  constexpr double round_off = 1e-11;
  const auto nodes = mesh.tetrahedra.col(tetrahedron);
  for (int e = 0; e < 6; ++e) {
    const auto& a = mesh.nodes.col(nodes[edges_of_tetrahedron[e][0]]);
    const auto& b = mesh.nodes.col(nodes[edges_of_tetrahedron[e][1]]);
    const double bow = (mesh.nodes.col(nodes[4 + e]) - 0.5 * (a + b)).squaredNorm();
    if (bow > round_off * round_off * (b - a).squaredNorm()) return false;
  }
  return true;
}

}  // namespace crossgrain
