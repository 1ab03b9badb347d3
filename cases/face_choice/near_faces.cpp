// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/face_choice/near_faces.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <unordered_map>

namespace crossgrain {
namespace {

double distance_to_segment(const Eigen::Vector3d& point, const Eigen::Vector3d& a,
                           const Eigen::Vector3d& b) {
  const Eigen::Vector3d along = b - a;
  const double length_squared = along.squaredNorm();
  const double share =
      length_squared > 0.0 ? std::clamp((point - a).dot(along) / length_squared, 0.0, 1.0) : 0.0;
  return (point - a - share * along).norm();
}

/// Stress points sorted into cubes, so that a triangle looks only at those around it.
class PointCubes {
 public:
  PointCubes(const TetrahedronMesh& mesh, const std::vector<StressPoint>& points, double side)
      : side_(side) {
    for (std::size_t i = 0; i < points.size(); ++i) {
      cubes_[cube_of(mesh.nodes.col(points[i].node))].push_back(static_cast<int>(i));
    }
  }

  template <typename Visit>
  void visit_box(const Eigen::Vector3d& low, const Eigen::Vector3d& high,
                 const Visit& visit) const {
    const Cube first = cube_of(low);
    const Cube last = cube_of(high);
    for (auto x = first[0]; x <= last[0]; ++x) {
      for (auto y = first[1]; y <= last[1]; ++y) {
        for (auto z = first[2]; z <= last[2]; ++z) {
          const auto found = cubes_.find({x, y, z});
          if (found != cubes_.end()) std::ranges::for_each(found->second, visit);
        }
      }
    }
  }

 private:
  using Cube = std::array<std::int64_t, 3>;
  struct Hash {
    std::size_t operator()(const Cube& c) const {
      return static_cast<std::size_t>(c[0] * 73856093 ^ c[1] * 19349663 ^ c[2] * 83492791);
    }
  };
  Cube cube_of(const Eigen::Vector3d& x) const {
    const Eigen::Vector3d cell = (x / side_).array().floor();
    return {std::int64_t(cell[0]), std::int64_t(cell[1]), std::int64_t(cell[2])};
  }

  double side_;
  std::unordered_map<Cube, std::vector<int>, Hash> cubes_;
};

/// Corners of the four flat triangles that stand for a curved one.
constexpr std::array<std::array<int, 3>, 4> flat_parts{
    {{0, 3, 5}, {3, 1, 4}, {5, 4, 2}, {3, 4, 5}}};

/// The two halves of each side of a curved triangle.
constexpr std::array<std::array<int, 2>, 6> halves_of_sides{
    {{0, 3}, {3, 1}, {1, 4}, {4, 2}, {2, 5}, {5, 0}}};

std::set<int> nodes_of(const TetrahedronMesh& mesh, FaceId face) {
  std::set<int> nodes;
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t)
    if (mesh.face_of_triangle[t] == face)
      for (const int node : mesh.triangles.col(t)) nodes.insert(node);
  return nodes;
}

}  // namespace

double distance_to_triangle(const Eigen::Vector3d& point, const Eigen::Vector3d& a,
                            const Eigen::Vector3d& b, const Eigen::Vector3d& c) {
  const Eigen::Vector3d normal = (b - a).cross(c - a);
  const bool over_triangle = (b - a).cross(point - a).dot(normal) >= 0.0 &&
                             (c - b).cross(point - b).dot(normal) >= 0.0 &&
                             (a - c).cross(point - c).dot(normal) >= 0.0;
  if (over_triangle && normal.norm() > 0.0) {
    return std::abs((point - a).dot(normal)) / normal.norm();
  }
  return std::min({distance_to_segment(point, a, b), distance_to_segment(point, b, c),
                   distance_to_segment(point, c, a)});
}

std::vector<char> near_faces(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                             const std::vector<StressPoint>& points,
                             const std::vector<double>& reach_of_body) {
  std::vector<char> near(points.size(), 0);
  const double reach_most = reach_of_body.empty() ? 0.0 : *std::ranges::max_element(reach_of_body);
  if (faces.empty() || !(reach_most > 0.0)) return near;
  const std::set<FaceId> wanted(faces.begin(), faces.end());
  const Eigen::Vector3d extent = mesh.nodes.rowwise().maxCoeff() - mesh.nodes.rowwise().minCoeff();
  const PointCubes cubes(mesh, points, std::max(reach_most, extent.norm() / 100.0));
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t) {
    if (!wanted.contains(mesh.face_of_triangle[t])) continue;
    const BodyId body = mesh.body_of_tetrahedron[mesh.tetrahedron_of_triangle[t]];
    const double reach = reach_of_body[index(body)];
    for (const auto& part : flat_parts) {
      Eigen::Matrix3d corner;
      for (int i = 0; i < 3; ++i) corner.col(i) = mesh.nodes.col(mesh.triangles(part[i], t));
      const Eigen::Vector3d low = corner.rowwise().minCoeff().array() - reach;
      const Eigen::Vector3d high = corner.rowwise().maxCoeff().array() + reach;
      cubes.visit_box(low, high, [&](int i) {
        if (near[i] != 0 || points[i].body != body) return;
        const double distance = distance_to_triangle(mesh.nodes.col(points[i].node), corner.col(0),
                                                     corner.col(1), corner.col(2));
        if (distance <= reach) near[i] = 1;
      });
    }
  }
  return near;
}

std::vector<char> near_edges(const TetrahedronMesh& mesh, const Geometry& geometry,
                             const std::vector<EdgeId>& edges,
                             const std::vector<StressPoint>& points,
                             const std::vector<double>& reach_of_body) {
  std::vector<char> near(points.size(), 0);
  if (edges.empty() || reach_of_body.empty()) return near;
  const PointCubes cubes(mesh, points, std::ranges::max(reach_of_body));
  for (const EdgeId edge : edges) {
    const auto& faces = geometry.edge(edge).faces;
    const std::set<int> on_second = nodes_of(mesh, faces.back());
    for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t) {
      if (mesh.face_of_triangle[t] != faces.front()) continue;
      const BodyId body = mesh.body_of_tetrahedron[mesh.tetrahedron_of_triangle[t]];
      const double reach = reach_of_body[index(body)];
      for (const auto& part : halves_of_sides) {
        const int from = mesh.triangles(part[0], t), to = mesh.triangles(part[1], t);
        if (!on_second.contains(from) || !on_second.contains(to)) continue;
        const Eigen::Vector3d a = mesh.nodes.col(from), b = mesh.nodes.col(to);
        cubes.visit_box(a.cwiseMin(b).array() - reach, a.cwiseMax(b).array() + reach, [&](int i) {
          if (points[i].body == body &&
              distance_to_segment(mesh.nodes.col(points[i].node), a, b) <= reach)
            near[i] = 1;
        });
      }
    }
  }
  return near;
}

}  // namespace crossgrain
