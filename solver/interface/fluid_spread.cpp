// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/fluid_spread.h"

#include <algorithm>
#include <limits>
#include <unordered_set>

namespace crossgrain {
namespace {

// A rule's points lie nearer to each other, and to the nodes of their own triangle's edges.
constexpr double share_of_edge = 0.5;

double longest_edge(const TetrahedronMesh& mesh, int triangle) {
  double longest = 0.0;
  for (int c = 0; c < 3; ++c)
    longest = std::max(longest, (mesh.nodes.col(mesh.triangles(c, triangle)) -
                                 mesh.nodes.col(mesh.triangles((c + 1) % 3, triangle)))
                                    .norm());
  return longest;
}

bool touch(const TetrahedronMesh& mesh, int triangle, int other) {
  for (int node : mesh.triangles.col(triangle))
    if ((mesh.triangles.col(other).array() == node).any()) return true;
  return false;
}

/// Boxes as wide as the points' neighbourhoods.
BoxTree boxes_round(const std::vector<InterfacePoint>& points, const std::vector<double>& radius) {
  std::vector<Eigen::AlignedBox3d> boxes;
  for (std::size_t p = 0; p < points.size(); ++p) {
    const Eigen::Vector3d half = Eigen::Vector3d::Constant(radius[p]);
    boxes.emplace_back(points[p].position - half, points[p].position + half);
  }
  return BoxTree(std::move(boxes));
}

std::vector<double> neighbourhoods(const TetrahedronMesh& mesh,
                                   const std::vector<InterfacePoint>& points) {
  std::vector<double> radius;
  for (const auto& point : points) {
    double edge = std::numeric_limits<double>::infinity();
    for (const auto& side : point.sides) edge = std::min(edge, longest_edge(mesh, side.triangle));
    radius.push_back(share_of_edge * edge);
  }
  return radius;
}

}  // namespace

FluidSpread::FluidSpread(const TetrahedronMesh& mesh, const std::vector<InterfacePoint>& points)
    : mesh_(mesh),
      points_(points),
      radius_(neighbourhoods(mesh, points)),
      boxes_(boxes_round(points, radius_)) {}

bool FluidSpread::neighbours(std::size_t a, std::size_t b) const {
  if (!((points_[a].position - points_[b].position).norm() <= std::max(radius_[a], radius_[b])))
    return false;
  // Two faces of a thin plate are near each other, too.
  for (const auto& side : points_[a].sides)
    for (const auto& other : points_[b].sides)
      if (touch(mesh_, side.triangle, other.triangle)) return true;
  return false;
}

std::vector<bool> FluidSpread::reached(const std::vector<bool>& may_enter,
                                       const std::vector<int>& wetted_nodes) const {
  std::vector<bool> wet(points_.size(), false);
  std::vector<std::size_t> front;
  const std::unordered_set<int> wetted(wetted_nodes.begin(), wetted_nodes.end());
  for (std::size_t p = 0; p < points_.size(); ++p) {
    if (!may_enter[p]) continue;
    for (const auto& side : points_[p].sides)
      for (int node : mesh_.triangles.col(side.triangle))
        if (!wet[p] && wetted.contains(node) &&
            (mesh_.nodes.col(node) - points_[p].position).norm() <= radius_[p]) {
          wet[p] = true;
          front.push_back(p);
        }
  }
  while (!front.empty()) {
    const std::size_t from = front.back();
    front.pop_back();
    for (int found : boxes_.meeting(boxes_.box(static_cast<int>(from)))) {
      const auto to = static_cast<std::size_t>(found);
      if (wet[to] || !may_enter[to] || !neighbours(from, to)) continue;
      wet[to] = true;
      front.push_back(to);
    }
  }
  return wet;
}

}  // namespace crossgrain
