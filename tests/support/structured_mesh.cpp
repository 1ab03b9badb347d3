// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/structured_mesh.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>

namespace crossgrain::testing {
namespace {

using Lattice = Eigen::Vector3i;

// Walks from corner (0,0,0) to (1,1,1) of a cell, one axis at a time: six orders, six tetrahedra.
constexpr int kWalks[6][3] = {{0, 1, 2}, {1, 2, 0}, {2, 0, 1}, {0, 2, 1}, {2, 1, 0}, {1, 0, 2}};
constexpr int kEdges[6][2] = {{0, 1}, {1, 2}, {2, 0}, {0, 3}, {1, 3}, {2, 3}};
// Faces of a tetrahedron seen from outside, in its own node order.
constexpr int kFaces[4][6] = {
    {0, 2, 1, 6, 5, 4}, {0, 1, 3, 4, 8, 7}, {1, 2, 3, 5, 9, 8}, {0, 3, 2, 7, 9, 6}};

/// Nodes lie at half steps: 2 n + 1 of them along an axis of n cells.
struct HalfStepGrid {
  Lattice points;

  int node(const Lattice& at) const { return at.x() + points.x() * (at.y() + points.y() * at.z()); }
  Eigen::Vector3d unit(const Lattice& at) const {
    return at.cast<double>().cwiseQuotient((points.array() - 1).matrix().cast<double>());
  }
  /// Side that all these lattice points lie on, if any: 1..6, else 0.
  int side(const std::array<Lattice, 3>& corners) const {
    for (int axis = 0; axis < 3; ++axis) {
      const auto all_at = [&](int value) {
        return std::all_of(corners.begin(), corners.end(),
                           [&](const Lattice& c) { return c[axis] == value; });
      };
      if (all_at(0)) return 2 * axis + 1;
      if (all_at(points[axis] - 1)) return 2 * axis + 2;
    }
    return 0;
  }
};

std::array<Lattice, 4> corners_of(const Lattice& cell, const int (&walk)[3], bool mirrored) {
  std::array<Lattice, 4> corners{2 * cell, 2 * cell, 2 * cell, 2 * cell};
  for (int step = 0; step < 3; ++step) {
    for (int later = step + 1; later < 4; ++later) corners[later][walk[step]] += 2;
  }
  if (mirrored) std::swap(corners[1], corners[2]);
  return corners;
}

bool left_handed(const HalfStepGrid& grid, const BlockMap& map) {
  const auto at = [&](int x, int y, int z) { return map(grid.unit({x, y, z})); };
  const Eigen::Vector3d o = at(0, 0, 0);
  return (at(2, 0, 0) - o).cross(at(0, 2, 0) - o).dot(at(0, 0, 2) - o) < 0.0;
}

void keep_triangles(TetrahedronMesh& mesh, const std::vector<int>& kept) {
  Eigen::Matrix<int, 6, Eigen::Dynamic> triangles(6, kept.size());
  std::vector<FaceId> faces;
  std::vector<int> behind;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    triangles.col(i) = mesh.triangles.col(kept[i]);
    faces.push_back(mesh.face_of_triangle[kept[i]]);
    behind.push_back(mesh.tetrahedron_of_triangle[kept[i]]);
  }
  mesh.triangles = triangles;
  mesh.face_of_triangle = faces;
  mesh.tetrahedron_of_triangle = behind;
}

/// The triangles of one tetrahedron that lie on the block's outside.
struct OutsideTriangles {
  std::vector<Eigen::Matrix<int, 6, 1>> nodes;
  std::vector<FaceId> faces;
  std::vector<int> behind;

  void gather(const HalfStepGrid& grid, const std::array<Lattice, 4>& corners,
              const Eigen::Matrix<int, 10, 1>& tetrahedron, int number) {
    for (const auto& face : kFaces) {
      const int side = grid.side({corners[face[0]], corners[face[1]], corners[face[2]]});
      if (side == 0) continue;
      Eigen::Matrix<int, 6, 1> triangle;
      for (int i = 0; i < 6; ++i) triangle[i] = tetrahedron[face[i]];
      nodes.push_back(triangle);
      faces.push_back(FaceId{side});
      behind.push_back(number);
    }
  }
};

}  // namespace

TetrahedronMesh block_mesh(const std::array<int, 3>& cells, const BlockMap& map,
                           const BodyOfCell& body) {
  const HalfStepGrid grid{{2 * cells[0] + 1, 2 * cells[1] + 1, 2 * cells[2] + 1}};
  const bool mirrored_map = left_handed(grid, map);
  TetrahedronMesh mesh;
  mesh.nodes.resize(3, grid.points.prod());
  mesh.tetrahedra.resize(10, 6 * cells[0] * cells[1] * cells[2]);
  for (int z = 0; z < grid.points.z(); ++z)
    for (int y = 0; y < grid.points.y(); ++y)
      for (int x = 0; x < grid.points.x(); ++x)
        mesh.nodes.col(grid.node({x, y, z})) = map(grid.unit({x, y, z}));

  OutsideTriangles outside;
  int number = 0;
  for (int z = 0; z < cells[2]; ++z)
    for (int y = 0; y < cells[1]; ++y)
      for (int x = 0; x < cells[0]; ++x)
        for (int w = 0; w < 6; ++w, ++number) {
          const Lattice cell(x, y, z);
          // The last three walks are odd permutations: left-handed by themselves.
          const auto corners = corners_of(cell, kWalks[w], (w >= 3) != mirrored_map);
          Eigen::Matrix<int, 10, 1> tetrahedron;
          for (int i = 0; i < 4; ++i) tetrahedron[i] = grid.node(corners[i]);
          for (int e = 0; e < 6; ++e)
            tetrahedron[4 + e] = grid.node((corners[kEdges[e][0]] + corners[kEdges[e][1]]) / 2);
          mesh.tetrahedra.col(number) = tetrahedron;
          const Lattice centre = 2 * cell + Lattice::Ones();
          mesh.body_of_tetrahedron.push_back(body ? body(grid.unit(centre)) : BodyId{1});
          outside.gather(grid, corners, tetrahedron, number);
        }
  mesh.triangles.resize(6, outside.nodes.size());
  for (std::size_t i = 0; i < outside.nodes.size(); ++i) mesh.triangles.col(i) = outside.nodes[i];
  mesh.face_of_triangle = outside.faces;
  mesh.tetrahedron_of_triangle = outside.behind;
  return mesh;
}

TetrahedronMesh box_mesh(const std::array<int, 3>& cells, const Eigen::Vector3d& size) {
  return block_mesh(
      cells, [&](const Eigen::Vector3d& unit) { return Eigen::Vector3d(unit.cwiseProduct(size)); });
}

TetrahedronMesh joined(const TetrahedronMesh& first, const TetrahedronMesh& second,
                       int face_offset) {
  const int nodes = static_cast<int>(first.node_count());
  const int tetrahedra = static_cast<int>(first.tetrahedron_count());
  TetrahedronMesh both;
  both.nodes.resize(3, nodes + second.node_count());
  both.nodes << first.nodes, second.nodes;
  both.tetrahedra.resize(10, tetrahedra + second.tetrahedron_count());
  both.tetrahedra << first.tetrahedra, (second.tetrahedra.array() + nodes).matrix();
  both.triangles.resize(6, first.triangle_count() + second.triangle_count());
  both.triangles << first.triangles, (second.triangles.array() + nodes).matrix();
  both.body_of_tetrahedron = first.body_of_tetrahedron;
  both.body_of_tetrahedron.insert(both.body_of_tetrahedron.end(),
                                  second.body_of_tetrahedron.begin(),
                                  second.body_of_tetrahedron.end());
  both.face_of_triangle = first.face_of_triangle;
  for (FaceId face : second.face_of_triangle)
    both.face_of_triangle.push_back(FaceId{number(face) + face_offset});
  both.tetrahedron_of_triangle = first.tetrahedron_of_triangle;
  for (int behind : second.tetrahedron_of_triangle)
    both.tetrahedron_of_triangle.push_back(behind + tetrahedra);
  return both;
}

TetrahedronMesh welded(const TetrahedronMesh& mesh, double tolerance) {
  // Sorted along a skew direction, in which a grid's nodes seldom tie: only neighbours in that
  // order need to be compared.
  const Eigen::VectorXd along = mesh.nodes.transpose() * Eigen::Vector3d(0.53, 0.61, 0.59);
  std::vector<int> order(mesh.node_count());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
  std::sort(order.begin(), order.end(), [&](int a, int b) { return along[a] < along[b]; });
  std::vector<int> representative(mesh.node_count());
  for (std::size_t i = 0; i < order.size(); ++i) {
    representative[order[i]] = order[i];
    for (std::size_t j = i; j-- > 0;) {
      if (along[order[i]] - along[order[j]] > tolerance) break;
      if ((mesh.nodes.col(order[i]) - mesh.nodes.col(order[j])).norm() > tolerance) continue;
      representative[order[i]] = representative[order[j]];
      break;
    }
  }

  std::vector<int> new_number(mesh.node_count(), -1);
  TetrahedronMesh result = mesh;
  int count = 0;
  for (int node = 0; node < mesh.node_count(); ++node) {
    if (representative[node] != node) continue;
    result.nodes.col(count) = mesh.nodes.col(node);
    new_number[node] = count++;
  }
  result.nodes.conservativeResize(3, count);
  const auto renumber = [&](int node) { return new_number[representative[node]]; };
  result.tetrahedra = mesh.tetrahedra.unaryExpr(renumber);
  result.triangles = mesh.triangles.unaryExpr(renumber);

  std::map<std::array<int, 3>, std::vector<int>> at_corners;
  for (int t = 0; t < result.triangle_count(); ++t) {
    std::array<int, 3> corners{result.triangles(0, t), result.triangles(1, t),
                               result.triangles(2, t)};
    std::sort(corners.begin(), corners.end());
    at_corners[corners].push_back(t);
  }
  std::vector<int> kept;
  for (const auto& [corners, triangles] : at_corners)
    if (triangles.size() == 1) kept.push_back(triangles.front());
  std::sort(kept.begin(), kept.end());
  keep_triangles(result, kept);
  return result;
}

int nearest_node(const TetrahedronMesh& mesh, const Eigen::Vector3d& point) {
  Eigen::Index nearest = 0;
  (mesh.nodes.colwise() - point).colwise().squaredNorm().minCoeff(&nearest);
  return static_cast<int>(nearest);
}

std::vector<int> nodes_on(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces) {
  std::vector<int> nodes;
  for (int t = 0; t < mesh.triangle_count(); ++t) {
    if (std::find(faces.begin(), faces.end(), mesh.face_of_triangle[t]) == faces.end()) continue;
    for (int i = 0; i < 6; ++i) nodes.push_back(mesh.triangles(i, t));
  }
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  return nodes;
}

}  // namespace crossgrain::testing
