// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/sharp_edges.h"

#include <algorithm>
#include <cmath>

namespace crossgrain {
namespace {

using Eigen::Vector3d;

double distance_to_segment(const Vector3d& a, const Vector3d& b, const Vector3d& point) {
  const Vector3d along = b - a;
  const double square = along.squaredNorm();
  const double share = square > 0.0 ? std::clamp(along.dot(point - a) / square, 0.0, 1.0) : 0.0;
  return (a + share * along - point).norm();
}

/// Of the body's edges that are wanted the nearest.
template <class Wanted>
std::optional<NearEdge> nearest(const Geometry& geometry, BodyId body, const Vector3d& point,
                                double within, const Wanted& is_wanted) {
  std::optional<NearEdge> nearest;
  for (const CadEdge& edge : geometry.edges) {
    if (edge.faces.empty() || geometry.face(edge.faces.front()).body != body) continue;
    if (!is_wanted(edge)) continue;
    const double distance = distance_to(edge, point);
    if (distance <= (nearest ? nearest->distance : within)) nearest = {edge.id, distance};
  }
  return nearest;
}

}  // namespace

double distance_to(const CadEdge& edge, const Vector3d& point) {
  double least = std::numeric_limits<double>::infinity();
  for (Eigen::Index i = 0; i + 1 < edge.course.cols(); ++i)
    least = std::min(least, distance_to_segment(edge.course.col(i), edge.course.col(i + 1), point));
  return least;
}

EdgeKind kind_of(const CadEdge& edge) {
  const double turn = edge.material_angle - 180.0;
  if (std::abs(turn) < smooth_turn) return EdgeKind::smooth;
  return turn > 0.0 ? EdgeKind::inner : EdgeKind::outer;
}

std::optional<NearEdge> nearest_of(const Geometry& geometry, const std::vector<EdgeId>& edges,
                                   BodyId body, const Vector3d& point, double within) {
  return nearest(geometry, body, point, within, [&](const CadEdge& edge) {
    return std::ranges::find(edges, edge.id) != edges.end();
  });
}

std::optional<NearEdge> nearest_inner_edge(const Geometry& geometry, BodyId body,
                                           const Vector3d& point, double within) {
  return nearest(geometry, body, point, within,
                 [](const CadEdge& edge) { return kind_of(edge) == EdgeKind::inner; });
}

}  // namespace crossgrain
