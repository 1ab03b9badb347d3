// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/closed_ends.h"

#include <cmath>
#include <numbers>

#include "mesh/geometry/flat_triangle.h"

namespace crossgrain {

bool has_closed_end(const PressedBody& part, const SimpleShape& cylinder,
                    const Eigen::Vector3d& axis) {
  constexpr double close = 0.05;  // flat triangles take off about 1 %
  const SurfaceTriangles& surface = part.geometry.surface;
  const double place = cylinder.place.from.dot(axis);
  double below = 0.0, above = 0.0;  // outward area of the pressed faces along the axis [mm^2]
  for (Eigen::Index t = 0; t < surface.triangles.cols(); ++t) {
    const FaceId face = surface.face_of_triangle[static_cast<std::size_t>(t)];
    if (!part.is_pressed(face) || part.geometry.face(face).body != part.body.id) continue;
    const FlatTriangle triangle = flat_triangle(surface, t);
    const bool beyond = (triangle.a + triangle.b + triangle.c).dot(axis) / 3.0 > place;
    (beyond ? above : below) += 0.5 * triangle.outward().dot(axis);
  }
  const double radius = cylinder.radius + (cylinder.pressed_inside ? 0.0 : cylinder.wall);
  const double whole = (cylinder.pressed_inside ? 1.0 : -1.0) * std::numbers::pi * radius * radius;
  return std::abs(below / whole - 1.0) < close || std::abs(-above / whole - 1.0) < close;
}

}  // namespace crossgrain
