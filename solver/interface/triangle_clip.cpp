// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/triangle_clip.h"

namespace crossgrain {
namespace {

using Polygon = std::vector<Eigen::Vector2d>;

double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
  return a.x() * b.y() - a.y() * b.x();
}

/// What lies to the left of the line from `start` to `end` (Sutherland and Hodgman, Commun. ACM 17
/// (1974) 32-42).
Polygon left_of(const Polygon& polygon, const Eigen::Vector2d& start, const Eigen::Vector2d& end) {
  Polygon kept;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const auto& here = polygon[i];
    const auto& next = polygon[(i + 1) % polygon.size()];
    const double here_left = cross(end - start, here - start);
    const double next_left = cross(end - start, next - start);
    if (here_left >= 0.0) kept.push_back(here);
    if ((here_left > 0.0 && next_left < 0.0) || (here_left < 0.0 && next_left > 0.0))
      kept.push_back(here + here_left / (here_left - next_left) * (next - here));
  }
  return kept;
}

}  // namespace

std::vector<Eigen::Vector2d> clipped(const PlaneTriangle& triangle, const PlaneTriangle& by) {
  Polygon polygon{triangle.col(0), triangle.col(1), triangle.col(2)};
  for (int i = 0; i < 3; ++i) polygon = left_of(polygon, by.col(i), by.col((i + 1) % 3));
  return polygon.size() < 3 ? Polygon{} : polygon;
}

double area_of(const PlaneTriangle& triangle) {
  return 0.5 * cross(triangle.col(1) - triangle.col(0), triangle.col(2) - triangle.col(0));
}

}  // namespace crossgrain
