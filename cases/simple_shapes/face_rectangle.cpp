// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/face_rectangle.h"

#include <Eigen/Geometry>
#include <limits>

namespace crossgrain {
namespace {

/// Of its box: rounded corners take a few per cent, a disc a fifth (common practice, no source).
constexpr double least_fill = 0.93;

Rectangle box_along(const FacePatch::Rim& rim, const Eigen::Vector3d& normal,
                    const Eigen::Vector3d& u) {
  const Eigen::Vector3d v = normal.cross(u);
  Eigen::Vector2d low = Eigen::Vector2d::Constant(std::numeric_limits<double>::infinity());
  Eigen::Vector2d high = -low;
  for (const FacePatch::Segment& segment : rim) {
    const Eigen::Vector2d here(segment.a.dot(u), segment.a.dot(v));
    const Eigen::Vector2d next(segment.b.dot(u), segment.b.dot(v));
    low = low.cwiseMin(here).cwiseMin(next);
    high = high.cwiseMax(here).cwiseMax(next);
  }
  const Eigen::Vector2d middle = 0.5 * (low + high), half = 0.5 * (high - low);
  const Eigen::Vector3d centre = middle[0] * u + middle[1] * v + rim.front().a.dot(normal) * normal;
  if (half[0] >= half[1]) return {centre, u, v, half[0], half[1]};
  return {centre, v, -u, half[1], half[0]};
}

double outer_area(const Geometry& geometry, const CadFace& face) {
  Eigen::Vector3d area = Eigen::Vector3d::Zero();
  for (const LoopEdge& side : face.loops.front())
    area += (side.forward ? 1.0 : -1.0) * geometry.edge(side.edge).swept_area;
  return area.norm();
}

}  // namespace

std::optional<Rectangle> rectangle_of(const Geometry& geometry, const CadFace& face,
                                      const FacePatch& patch) {
  if (face.kind != SurfaceKind::plane || face.loops.empty() || patch.rims().empty())
    return std::nullopt;
  std::optional<Rectangle> least;
  for (const FacePatch::Segment& segment : patch.rims().front()) {
    const Rectangle box =
        box_along(patch.rims().front(), face.axis, (segment.b - segment.a).normalized());
    if (!least || box.half_u * box.half_v < least->half_u * least->half_v) least = box;
  }
  if (outer_area(geometry, face) < least_fill * 4.0 * least->half_u * least->half_v)
    return std::nullopt;
  return least;
}

}  // namespace crossgrain
