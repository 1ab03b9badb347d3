// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/flat_triangle.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>

namespace crossgrain {

using Eigen::Vector3d;

Vector3d FlatTriangle::outward() const { return (b - a).cross(c - a); }

FlatTriangle flat_triangle(const SurfaceTriangles& surface, Eigen::Index number) {
  const auto corners = surface.triangles.col(number);
  return {surface.points.col(corners[0]), surface.points.col(corners[1]),
          surface.points.col(corners[2])};
}

// By the triangle's edge functions. Source: T. Moeller, B. Trumbore, Fast, minimum storage
// ray/triangle intersection, J. Graphics Tools 2 (1997) 21-28 (from memory).
double distance_along_ray(const FlatTriangle& t, const Vector3d& origin,
                          const Vector3d& direction) {
  constexpr double missed = std::numeric_limits<double>::infinity();
  const Vector3d u = t.b - t.a, v = t.c - t.a;
  const Vector3d p = direction.cross(v);
  const double det = u.dot(p);
  if (det == 0.0) return missed;
  const Vector3d s = origin - t.a;
  const double first = s.dot(p) / det;
  const Vector3d q = s.cross(u);
  const double second = direction.dot(q) / det;
  constexpr double slack = 1e-9;  // rather two hits at a common edge than none
  if (!(first >= -slack && second >= -slack && first + second <= 1.0 + slack)) return missed;
  return v.dot(q) / det;
}

namespace {

double squared_distance_to_edge(const Vector3d& start, const Vector3d& edge,
                                const Vector3d& point) {
  const Vector3d from_start = point - start;
  const double length = edge.squaredNorm();
  const double along = length > 0.0 ? std::clamp(from_start.dot(edge) / length, 0.0, 1.0) : 0.0;
  return (from_start - along * edge).squaredNorm();
}

}  // namespace

double squared_distance(const FlatTriangle& t, const Vector3d& point) {
  // To the plane inside the prism over the triangle, else to the nearest edge.
  const Vector3d b = t.b - t.a, c = t.c - t.a, p = point - t.a;
  const double bb = b.dot(b), bc = b.dot(c), cc = c.dot(c), pb = p.dot(b), pc = p.dot(c);
  const double det = bb * cc - bc * bc;
  const double u = (cc * pb - bc * pc) / det, v = (bb * pc - bc * pb) / det;
  if (u >= 0.0 && v >= 0.0 && u + v <= 1.0) return (p - u * b - v * c).squaredNorm();
  return std::min({squared_distance_to_edge(t.a, b, point), squared_distance_to_edge(t.a, c, point),
                   squared_distance_to_edge(t.b, t.c - t.b, point)});
}

// Source: A. van Oosterom, J. Strackee, The solid angle of a plane triangle, IEEE Trans. Biomed.
// Eng. 30 (1983) 125-126 (from memory; the test of a ball's inside depends on it).
double solid_angle(const FlatTriangle& t, const Vector3d& point) {
  const Vector3d a = t.a - point, b = t.b - point, c = t.c - point;
  const double x = a.norm(), y = b.norm(), z = c.norm();
  return 2.0 *
         std::atan2(a.dot(b.cross(c)), x * y * z + a.dot(b) * z + b.dot(c) * x + c.dot(a) * y);
}

}  // namespace crossgrain
