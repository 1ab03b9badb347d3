// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/straightening.h"

#include <set>

#include "mesh/tetrahedra/mesh_checks.h"
#include "mesh/tetrahedra/meshing_failure.h"

namespace crossgrain {
namespace {

constexpr int ends[6][2] = {{0, 1}, {1, 2}, {2, 0}, {0, 3}, {1, 3}, {2, 3}};

bool tangled(const JacobianBounds& bounds) {
  return !(bounds.least >= least_jacobian_share * bounds.straight);
}

/// Straightening cannot help these: flat, inverted or not a number.
void refuse_flat(const TetrahedronMesh& mesh) {
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e) {
    JacobianBounds bounds = jacobian_bounds(mesh, e);
    bounds.least = bounds.straight;
    if (!(scaled_jacobian(mesh, e, bounds) > 1e-6)) {
      const Eigen::Vector3d at = mesh.nodes.col(mesh.tetrahedra(0, e));
      throw MeshingFailure("a flat or inverted element at (" + std::to_string(at.x()) + ", " +
                           std::to_string(at.y()) + ", " + std::to_string(at.z()) + ") mm");
    }
  }
}

void pull_middles(TetrahedronMesh& mesh, int element, double share, std::set<int>& moved) {
  for (int i = 0; i < 6; ++i) {
    const int node = mesh.tetrahedra(4 + i, element);
    if (!moved.insert(node).second) continue;  // by the neighbour already
    const Eigen::Vector3d straight = 0.5 * (mesh.nodes.col(mesh.tetrahedra(ends[i][0], element)) +
                                            mesh.nodes.col(mesh.tetrahedra(ends[i][1], element)));
    mesh.nodes.col(node) += share * (straight - mesh.nodes.col(node));
  }
}

}  // namespace

std::vector<int> tangled_elements(const TetrahedronMesh& mesh) {
  std::vector<int> found;
  for (int e = 0; e < mesh.tetrahedron_count(); ++e)
    if (tangled(jacobian_bounds(mesh, e))) found.push_back(e);
  return found;
}

int straighten_tangled(TetrahedronMesh& mesh) {
  refuse_flat(mesh);
  std::set<int> ever;
  for (int pass = 0;; ++pass) {
    const std::vector<int> found = tangled_elements(mesh);
    if (found.empty()) return static_cast<int>(ever.size());
    std::set<int> moved;
    for (const int element : found) {
      ever.insert(element);
      // Each full pass makes at least one more edge straight for good, so this ends: in the worst
      // case with all edges straight, which refuse_flat has found sound.
      pull_middles(mesh, element, pass < 2 ? 0.5 : 1.0, moved);
    }
  }
}

}  // namespace crossgrain
