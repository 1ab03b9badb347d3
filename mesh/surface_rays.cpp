// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/surface_rays.h"

#include <Eigen/Geometry>
#include <cmath>
#include <limits>

namespace crossgrain {
namespace {

struct Triangle {
  Eigen::Vector3d a, b, c;
};

Triangle triangle(const SurfaceTriangles& surface, Eigen::Index i) {
  const auto corners = surface.triangles.col(i);
  return {surface.points.col(corners[0]), surface.points.col(corners[1]),
          surface.points.col(corners[2])};
}

/// Slabs; a box is thickened a little because flat faces have flat boxes.
bool meets(const Box& box, const Eigen::Vector3d& origin, const Eigen::Vector3d& direction,
           double slack) {
  double enter = -std::numeric_limits<double>::infinity(), leave = -enter;
  for (int i = 0; i < 3; ++i) {
    const double low = box.low[i] - slack - origin[i], high = box.high[i] + slack - origin[i];
    if (direction[i] == 0.0) {
      if (low > 0.0 || high < 0.0) {
        return false;
      }
      continue;
    }
    const double a = low / direction[i], b = high / direction[i];
    enter = std::max(enter, std::min(a, b));
    leave = std::min(leave, std::max(a, b));
  }
  return enter <= leave && leave >= 0.0;
}

/// Distance along the ray, by the triangle's edge functions.
/// Source: T. Moeller, B. Trumbore, Fast, minimum storage ray/triangle intersection, J. Graphics
/// Tools 2 (1997) 21-28 (from memory).
std::optional<double> cut(const Triangle& t, const Eigen::Vector3d& origin,
                          const Eigen::Vector3d& direction) {
  const Eigen::Vector3d u = t.b - t.a, v = t.c - t.a;
  const Eigen::Vector3d p = direction.cross(v);
  const double det = u.dot(p);
  if (det == 0.0) {
    return std::nullopt;
  }
  const Eigen::Vector3d s = origin - t.a;
  const double first = s.dot(p) / det;
  const Eigen::Vector3d q = s.cross(u);
  const double second = direction.dot(q) / det;
  constexpr double slack = 1e-9;  // rather two hits at a common edge than none
  if (!(first >= -slack && second >= -slack && first + second <= 1.0 + slack)) {
    return std::nullopt;
  }
  return v.dot(q) / det;
}

/// The solid angle of a triangle seen from a point, positive from within.
/// Source: A. van Oosterom, J. Strackee, The solid angle of a plane triangle, IEEE Trans. Biomed.
/// Eng. 30 (1983) 125-126 (from memory; the test of a ball's inside depends on it).
double solid_angle(const Triangle& t, const Eigen::Vector3d& point) {
  const Eigen::Vector3d a = t.a - point, b = t.b - point, c = t.c - point;
  const double x = a.norm(), y = b.norm(), z = c.norm();
  return 2.0 *
         std::atan2(a.dot(b.cross(c)), x * y * z + a.dot(b) * z + b.dot(c) * x + c.dot(a) * y);
}

}  // namespace

SurfaceRays::SurfaceRays(const Geometry& geometry, std::optional<BodyId> only)
    : geometry_(geometry) {
  const SurfaceTriangles& surface = geometry.surface;
  for (Eigen::Index i = 0; i < surface.triangles.cols(); ++i) {
    const FaceId face = surface.face_of_triangle[static_cast<std::size_t>(i)];
    const BodyId body = geometry.face(face).body;
    if (!geometry.body(body).modelled || (only && *only != body)) {
      continue;
    }
    if (patches_.empty() || patches_.back().face != face) {
      patches_.push_back({face, body, empty_box(), i, i});
    }
    patches_.back().end = i + 1;
    for (const int corner : surface.triangles.col(i)) {
      extend(patches_.back().box, Eigen::Vector3d(surface.points.col(corner)));
    }
  }
}

std::optional<RayHit> SurfaceRays::first_hit(const Eigen::Vector3d& origin,
                                             const Eigen::Vector3d& direction, double least) const {
  std::optional<RayHit> nearest;
  for (const Patch& patch : patches_) {
    if (!meets(patch.box, origin, direction, 1e-9 * geometry_.box.diagonal())) {
      continue;
    }
    for (Eigen::Index i = patch.begin; i < patch.end; ++i) {
      const Triangle t = triangle(geometry_.surface, i);
      const auto distance = cut(t, origin, direction);
      if (distance && *distance >= least && (!nearest || *distance < nearest->distance)) {
        const bool against = (t.b - t.a).cross(t.c - t.a).dot(direction) < 0.0;
        nearest = RayHit{*distance, patch.face, against};
      }
    }
  }
  return nearest;
}

std::optional<BodyId> SurfaceRays::body_around(const Eigen::Vector3d& point) const {
  std::vector<double> angle(geometry_.bodies.size(), 0.0);
  for (const Patch& patch : patches_) {
    for (Eigen::Index i = patch.begin; i < patch.end; ++i) {
      angle[index(patch.body)] += solid_angle(triangle(geometry_.surface, i), point);
    }
  }
  for (const Body& body : geometry_.bodies) {
    if (angle[index(body.id)] > 2.0 * M_PI) {  // 4 pi inside, 0 outside
      return body.id;
    }
  }
  return std::nullopt;
}

std::vector<Eigen::Vector3d> even_directions(int count) {
  // Equal steps in height, and the golden angle round.
  const double golden = M_PI * (3.0 - std::sqrt(5.0));
  std::vector<Eigen::Vector3d> directions;
  for (int i = 0; i < count; ++i) {
    const double z = 1.0 - (2.0 * i + 1.0) / count;
    const double r = std::sqrt(1.0 - z * z), angle = golden * i + 0.1;
    directions.emplace_back(r * std::cos(angle), r * std::sin(angle), z);
  }
  return directions;
}

Eigen::Vector3d normal_near(const Geometry& geometry, FaceId face, const Eigen::Vector3d& point) {
  const SurfaceTriangles& surface = geometry.surface;
  Eigen::Vector3d normal = Eigen::Vector3d::Zero();
  double nearest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < surface.face_of_triangle.size(); ++i) {
    if (surface.face_of_triangle[i] != face) {
      continue;
    }
    const Triangle t = triangle(surface, static_cast<Eigen::Index>(i));
    const double distance = ((t.a + t.b + t.c) / 3.0 - point).norm();
    if (distance < nearest) {
      nearest = distance;
      normal = (t.b - t.a).cross(t.c - t.a).normalized();
    }
  }
  return normal;
}

}  // namespace crossgrain
