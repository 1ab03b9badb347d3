// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/mesh_extraction.h"

#include <gmsh.h>

#include <algorithm>
#include <numeric>

#include "mesh/tetrahedra/meshing_failure.h"
#include "mesh/tetrahedra/tetrahedron_sides.h"

namespace crossgrain {
namespace {

// Gmsh's numbers of element types, by order.
constexpr int tetrahedron_type[] = {0, 4, 11};
constexpr int triangle_type[] = {0, 2, 9};

/// From Gmsh's node tags, which may have gaps, to columns.
class NodeNumbers {
 public:
  explicit NodeNumbers(TetrahedronMesh& mesh) {
    std::vector<std::size_t> tags;
    std::vector<double> coordinates, unused;
    gmsh::model::mesh::getNodes(tags, coordinates, unused, -1, -1, false, false);
    place_.assign(tags.empty() ? 1 : *std::max_element(tags.begin(), tags.end()) + 1, -1);
    points_ = Eigen::Map<const Eigen::Matrix3Xd>(coordinates.data(), 3,
                                                 static_cast<Eigen::Index>(tags.size()));
    for (std::size_t i = 0; i < tags.size(); ++i) source_of(tags[i]) = static_cast<int>(i);
    mesh.nodes.resize(3, points_.cols());
    column_.assign(tags.size(), -1);
  }
  /// The column of a node, given on first use: nodes that no tetrahedron has are dropped.
  int column(std::size_t tag, TetrahedronMesh& mesh) {
    const int source = source_of(tag);
    int& column = column_[static_cast<std::size_t>(source)];
    if (column < 0) {
      column = used_++;
      mesh.nodes.col(column) = points_.col(source);
      used_tags_.push_back(tag);
    }
    return column;
  }
  int used() const { return used_; }
  std::vector<std::size_t>& used_tags() { return used_tags_; }

 private:
  int& source_of(std::size_t tag) { return place_[tag]; }
  std::vector<int> place_;   // by tag: place in points_
  std::vector<int> column_;  // by place in points_
  Eigen::Matrix3Xd points_;
  int used_ = 0;
  std::vector<std::size_t> used_tags_;
};

void take_tetrahedra(TetrahedronMesh& mesh, const ConformalShape& shape, int order,
                     NodeNumbers& numbers) {
  // Gmsh's last two middles are those of 23 and 13; ours 13 and 23.
  constexpr std::array<int, 10> place = {0, 1, 2, 3, 4, 5, 6, 7, 9, 8};
  const std::size_t count = order == 1 ? 4 : 10;
  std::vector<Eigen::Matrix<int, 10, 1>> all;
  for (std::size_t volume = 0; volume < shape.body_of_volume.size(); ++volume) {
    std::vector<std::size_t> elements, nodes;
    gmsh::model::mesh::getElementsByType(tetrahedron_type[order], elements, nodes,
                                         static_cast<int>(volume) + 1);
    if (elements.empty())
      throw MeshingFailure("body " + std::to_string(number(shape.body_of_volume[volume])) +
                           " got no elements");
    for (std::size_t e = 0; e < elements.size(); ++e) {
      Eigen::Matrix<int, 10, 1> element = Eigen::Matrix<int, 10, 1>::Constant(-1);
      for (std::size_t i = 0; i < count; ++i)
        element[i] = numbers.column(nodes[count * e + place[i]], mesh);
      all.push_back(element);
    }
    mesh.body_of_tetrahedron.resize(all.size(), shape.body_of_volume[volume]);
  }
  mesh.tetrahedra.resize(10, static_cast<Eigen::Index>(all.size()));
  for (std::size_t e = 0; e < all.size(); ++e)
    mesh.tetrahedra.col(static_cast<Eigen::Index>(e)) = all[e];
  mesh.nodes.conservativeResize(3, numbers.used());
}

using Corners = std::array<int, 3>;

Corners sorted(int a, int b, int c) {
  Corners corners{a, b, c};
  std::sort(corners.begin(), corners.end());
  return corners;
}

struct SurfaceTriangle {
  Corners corners;
  int gmsh_face;
};

std::vector<SurfaceTriangle> surface_mesh(TetrahedronMesh& mesh, const ConformalShape& shape,
                                          int order, NodeNumbers& numbers) {
  const std::size_t count = order == 1 ? 3 : 6;
  std::vector<SurfaceTriangle> triangles;
  const int tetrahedra_nodes = numbers.used();
  for (std::size_t face = 0; face < shape.owners_of_face.size(); ++face) {
    std::vector<std::size_t> elements, nodes;
    gmsh::model::mesh::getElementsByType(triangle_type[order], elements, nodes,
                                         static_cast<int>(face) + 1);
    for (std::size_t t = 0; t < elements.size(); ++t)
      triangles.push_back({sorted(numbers.column(nodes[count * t], mesh),
                                  numbers.column(nodes[count * t + 1], mesh),
                                  numbers.column(nodes[count * t + 2], mesh)),
                           static_cast<int>(face)});
  }
  if (numbers.used() != tetrahedra_nodes)
    throw MeshingFailure("the surface mesh has nodes that no tetrahedron has");
  return triangles;
}

FaceId face_of(const std::vector<FaceOwner>& owners, BodyId body, int gmsh_face) {
  for (const FaceOwner& owner : owners)
    if (owner.body == body) return owner.face;
  throw MeshingFailure("an element of body " + std::to_string(number(body)) + " lies behind face " +
                       std::to_string(gmsh_face + 1) + ", which is not the body's");
}

/// Triangles as the sides of the tetrahedra behind them, so that they point out of the body.
void take_triangles(TetrahedronMesh& mesh, const ConformalShape& shape,
                    const std::vector<SurfaceTriangle>& surface) {
  const std::vector<TetrahedronSide> sides = sorted_sides(mesh);
  const auto before = [](const auto& a, const auto& b) { return a.corners < b.corners; };
  std::vector<Eigen::Matrix<int, 6, 1>> all;
  for (const SurfaceTriangle& triangle : surface) {
    const auto [begin, end] = std::equal_range(sides.begin(), sides.end(),
                                               TetrahedronSide{triangle.corners, 0, 0}, before);
    const auto count = end - begin;
    if (count < 1 || count > 2)
      throw MeshingFailure("a triangle of face " + std::to_string(triangle.gmsh_face + 1) +
                           " lies on no element");
    for (auto side = begin; side != end; ++side) {
      Eigen::Matrix<int, 6, 1> nodes;
      for (int i = 0; i < 6; ++i)
        nodes[i] = mesh.tetrahedra(
            tetrahedron_sides[static_cast<std::size_t>(side->side)][static_cast<std::size_t>(i)],
            side->tetrahedron);
      const int twin = count == 1 ? -1 : static_cast<int>(all.size()) + (side == begin ? 1 : -1);
      all.push_back(nodes);
      const auto& owners = shape.owners_of_face[static_cast<std::size_t>(triangle.gmsh_face)];
      const BodyId body = mesh.body_of_tetrahedron[static_cast<std::size_t>(side->tetrahedron)];
      mesh.face_of_triangle.push_back(face_of(owners, body, triangle.gmsh_face));
      mesh.tetrahedron_of_triangle.push_back(side->tetrahedron);
      mesh.twin_of_triangle.push_back(twin);
    }
  }
  mesh.triangles.resize(6, static_cast<Eigen::Index>(all.size()));
  for (std::size_t t = 0; t < all.size(); ++t)
    mesh.triangles.col(static_cast<Eigen::Index>(t)) = all[t];
}

}  // namespace

ExtractedMesh extract_mesh(const ConformalShape& shape, int order) {
  ExtractedMesh extracted;
  TetrahedronMesh& mesh = extracted.mesh;
  NodeNumbers numbers(mesh);
  take_tetrahedra(mesh, shape, order, numbers);
  take_triangles(mesh, shape, surface_mesh(mesh, shape, order, numbers));
  extracted.node_tags = std::move(numbers.used_tags());
  return extracted;
}

}  // namespace crossgrain
