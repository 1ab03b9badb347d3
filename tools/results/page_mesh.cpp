// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/page_mesh.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <unordered_map>

#include "tools/results/point_of_node.h"

namespace crossgrain {
namespace {

/// Place on a curve that visits neighbours one after the other: the bits of ten-bit coordinates
/// interleaved (Morton).
std::uint32_t along_curve(const Eigen::Vector3d& place, const Box& box) {
  constexpr double cells = 1023.0;
  const Eigen::Vector3d extent = (box.high - box.low).cwiseMax(1e-12);
  std::uint32_t code = 0;
  for (int axis = 0; axis < 3; ++axis) {
    const auto cell =
        static_cast<std::uint32_t>(cells * (place[axis] - box.low[axis]) / extent[axis]);
    for (int bit = 0; bit < 10; ++bit) code |= (cell >> bit & 1U) << (3 * bit + axis);
  }
  return code;
}

std::vector<int> tetrahedra_in_order(const TetrahedronMesh& mesh) {
  Box box = empty_box();
  for (const auto& node : mesh.nodes.colwise()) extend(box, node);
  std::vector<std::pair<int, std::uint32_t>> key(mesh.tetrahedron_count());
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    Eigen::Vector3d middle = Eigen::Vector3d::Zero();
    for (int k = 0; k < 4; ++k) middle += 0.25 * mesh.nodes.col(mesh.tetrahedra(k, t));
    key[t] = {number(mesh.body_of_tetrahedron[t]), along_curve(middle, box)};
  }
  std::vector<int> order(key.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return key[a] < key[b]; });
  return order;
}

/// Gives new numbers to stress points as they are met.
class Numbering {
 public:
  explicit Numbering(std::size_t points) : vertex_(points, -1) {}
  /// @return the vertex, and whether it is new.
  std::pair<int, bool> meet(int point) {
    const bool is_new = vertex_[point] < 0;
    if (is_new) {
      vertex_[point] = static_cast<int>(point_of_vertex.size());
      point_of_vertex.push_back(point);
    }
    return {vertex_[point], is_new};
  }
  std::vector<int> point_of_vertex;

 private:
  std::vector<int> vertex_;
};

void number_vertices(const RunOutputs& outputs, const std::vector<int>& order, PageMesh& page) {
  constexpr int ends[6][2] = {{0, 1}, {1, 2}, {2, 0}, {0, 3}, {1, 3}, {2, 3}};
  const TetrahedronMesh& mesh = outputs.meshed.mesh;
  Numbering numbering(outputs.points.size());
  PointOfNode corner_point(outputs);
  for (const int t : order) {
    corner_point.turn_to(mesh.body_of_tetrahedron[t]);
    std::array<int, 4> corners{};
    for (int k = 0; k < 4; ++k)
      corners[k] = numbering.meet(corner_point(mesh.tetrahedra(k, t))).first;
    page.tetrahedra.push_back(corners);
  }
  page.corners = numbering.point_of_vertex.size();
  PointOfNode middle_point(outputs);
  for (std::size_t i = 0; i < order.size(); ++i) {
    middle_point.turn_to(mesh.body_of_tetrahedron[order[i]]);
    for (int e = 0; e < 6; ++e) {
      if (!numbering.meet(middle_point(mesh.tetrahedra(4 + e, order[i]))).second) continue;
      page.middle_ends.push_back({page.tetrahedra[i][ends[e][0]], page.tetrahedra[i][ends[e][1]]});
    }
  }
  page.point_of_vertex = std::move(numbering.point_of_vertex);
}

int opposite_corner(const TetrahedronMesh& mesh, Eigen::Index triangle) {
  const auto tetrahedron = mesh.tetrahedra.col(mesh.tetrahedron_of_triangle[triangle]);
  const auto corners = mesh.triangles.col(triangle).head<3>();
  int opposite = 0;
  while (opposite < 3 && (corners.array() == tetrahedron[opposite]).any()) ++opposite;
  return opposite;
}

void add_surface(const TetrahedronMesh& mesh, const std::vector<int>& order, PageMesh& page) {
  std::vector<int> place(order.size());
  for (std::size_t i = 0; i < order.size(); ++i) place[order[i]] = static_cast<int>(i);
  std::vector<std::pair<int, std::uint32_t>> triangles;
  for (Eigen::Index i = 0; i < mesh.triangle_count(); ++i) {
    const int tetrahedron = place[mesh.tetrahedron_of_triangle[i]];
    triangles.emplace_back(number(mesh.face_of_triangle[i]),
                           4U * static_cast<std::uint32_t>(tetrahedron) +
                               static_cast<std::uint32_t>(opposite_corner(mesh, i)));
  }
  std::sort(triangles.begin(), triangles.end());
  for (const auto& [face, code] : triangles) {
    page.face_of_surface.push_back(FaceId{face});
    page.surface.push_back(code);
  }
}

}  // namespace

PageMesh page_mesh(const RunOutputs& outputs) {
  const TetrahedronMesh& mesh = outputs.meshed.mesh;
  const std::vector<int> order = tetrahedra_in_order(mesh);
  PageMesh page{};
  number_vertices(outputs, order, page);
  add_surface(mesh, order, page);
  page.tetrahedra_of_body.resize(outputs.meshed.geometry.bodies.size());
  for (const BodyId body : mesh.body_of_tetrahedron) ++page.tetrahedra_of_body.at(index(body));
  return page;
}

std::vector<std::uint32_t> connectivity_codes(const PageMesh& mesh) {
  std::vector<std::uint32_t> codes;
  codes.reserve(4 * mesh.tetrahedra.size());
  int next = 0;
  for (const auto& corners : mesh.tetrahedra) {
    for (const int corner : corners) {
      codes.push_back(static_cast<std::uint32_t>(next - corner));
      if (corner == next) ++next;
    }
  }
  return codes;
}

std::vector<std::uint32_t> difference_codes(const PageMesh& mesh,
                                            const std::vector<std::uint32_t>& values) {
  std::vector<std::uint32_t> codes(values.size());
  for (std::size_t i = 0; i < mesh.corners; ++i)
    codes[i] = (values[i] - (i > 0 ? values[i - 1] : 0)) & 0xffffU;
  for (std::size_t i = 0; mesh.corners + i < values.size(); ++i) {
    const auto& [a, b] = mesh.middle_ends[i];
    codes[mesh.corners + i] = (values[mesh.corners + i] - (values[a] + values[b]) / 2) & 0xffffU;
  }
  return codes;
}

}  // namespace crossgrain
