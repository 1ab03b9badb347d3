// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/face_choice/mesh_loops.h"

#include <Eigen/Geometry>
#include <array>
#include <cmath>
#include <map>
#include <set>

namespace crossgrain {
namespace {

/// A triangle's edge, run along as the triangle does.
struct HalfEdge {
  int from, middle, to;
};

/// Half edges of the faces' triangles that no other of these triangles shares, by their start.
std::multimap<int, HalfEdge> boundary_edges(const TetrahedronMesh& mesh,
                                            const std::vector<FaceId>& faces) {
  const std::set<FaceId> wanted(faces.begin(), faces.end());
  std::map<std::pair<int, int>, HalfEdge> unmatched;
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t) {
    if (!wanted.contains(mesh.face_of_triangle[t])) continue;
    for (int i = 0; i < 3; ++i) {
      const HalfEdge edge{mesh.triangles(i, t), mesh.triangles(3 + i, t),
                          mesh.triangles((i + 1) % 3, t)};
      if (unmatched.erase({edge.to, edge.from}) == 0) unmatched[{edge.from, edge.to}] = edge;
    }
  }
  std::multimap<int, HalfEdge> by_start;
  for (const auto& [ends, edge] : unmatched) by_start.emplace(edge.from, edge);
  return by_start;
}

/// Add a curved edge's share: 1/2 x cross dx, and -1/2 |x|^2 dx (Stokes' theorem).
void add_edge(MeshLoop& loop, const TetrahedronMesh& mesh, const HalfEdge& edge) {
  // Three-point Gauss rule on [0, 1]: exact for degree 5, that of |x|^2 dx on a quadratic edge.
  const double offset = 0.5 * std::sqrt(0.6);
  const std::array<double, 3> at{0.5 - offset, 0.5, 0.5 + offset};
  const std::array<double, 3> weight{5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
  const Eigen::Vector3d a = mesh.nodes.col(edge.from);
  const Eigen::Vector3d m = mesh.nodes.col(edge.middle);
  const Eigen::Vector3d b = mesh.nodes.col(edge.to);
  for (int q = 0; q < 3; ++q) {
    const double t = at[q];
    const Eigen::Vector3d x = (1 - t) * (1 - 2 * t) * a + 4 * t * (1 - t) * m + t * (2 * t - 1) * b;
    const Eigen::Vector3d dx = (4 * t - 3) * a + (4 - 8 * t) * m + (4 * t - 1) * b;
    loop.vector_area += 0.5 * weight[q] * x.cross(dx);
    loop.moment_area -= 0.5 * weight[q] * x.squaredNorm() * dx;
  }
}

}  // namespace

std::vector<MeshLoop> boundary_loops(const TetrahedronMesh& mesh,
                                     const std::vector<FaceId>& faces) {
  auto edges = boundary_edges(mesh, faces);
  std::vector<MeshLoop> loops;
  while (!edges.empty()) {
    MeshLoop loop{Eigen::Vector3d::Zero(), Eigen::Vector3d::Zero(), Eigen::Vector3d::Zero()};
    int count = 0;
    for (auto next = edges.begin(); next != edges.end();) {
      const HalfEdge edge = next->second;
      add_edge(loop, mesh, edge);
      loop.middle += mesh.nodes.col(edge.from);
      ++count;
      edges.erase(next);
      next = edges.find(edge.to);
    }
    loop.middle /= count;
    loops.push_back(loop);
  }
  return loops;
}

}  // namespace crossgrain
