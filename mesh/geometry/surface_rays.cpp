// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/surface_rays.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>
#include <unsupported/Eigen/BVH>

#include "mesh/geometry/flat_triangle.h"

namespace crossgrain {

using Eigen::Vector3d;

struct SurfaceRays::Tree {
  std::vector<FlatTriangle> triangles;
  std::vector<FaceId> face_of_triangle;
  std::vector<BodyId> body_of_triangle;
  std::vector<BodyId> bodies;
  Eigen::KdBVH<double, 3, int> boxes;
  double small = 0.0;  ///< no more than rounding [mm]

  const FlatTriangle& triangle(int i) const { return triangles[static_cast<std::size_t>(i)]; }
};

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Visitor of the tree that keeps the nearest hit.
struct NearestHit {
  const std::vector<FlatTriangle>& triangles;
  Vector3d origin, direction;
  double least;
  bool exits_only;
  double distance = infinity;
  int triangle = -1;

  bool intersectVolume(const Eigen::AlignedBox3d& box) const {
    double enter = 0.0, leave = distance;
    for (int i = 0; i < 3; ++i) {
      const double low = box.min()[i] - origin[i], high = box.max()[i] - origin[i];
      if (direction[i] == 0.0) {
        if (low > 0.0 || high < 0.0) return false;
        continue;
      }
      const double a = low / direction[i], b = high / direction[i];
      enter = std::max(enter, std::min(a, b));
      leave = std::min(leave, std::max(a, b));
    }
    return enter <= leave;
  }
  bool intersectObject(int i) {
    const FlatTriangle& candidate = triangles[static_cast<std::size_t>(i)];
    if (exits_only && !(candidate.outward().dot(direction) > 0.0)) return false;
    const double d = distance_along_ray(candidate, origin, direction);
    // Of two hits at a common edge the lower number counts, in whatever order the tree shows them.
    if (d >= least && (d < distance || (d == distance && i < triangle))) {
      distance = d;
      triangle = i;
    }
    return false;  // go on
  }
};

/// Visitor of the tree that keeps the nearest point within a distance.
struct NearestPoint {
  using Scalar = double;
  const std::vector<FlatTriangle>& triangles;
  Vector3d point;
  double squared_beyond;
  double minimumOnVolume(const Eigen::AlignedBox3d& box) const {
    const double d = box.squaredExteriorDistance(point);
    return d < squared_beyond ? d : infinity;
  }
  double minimumOnObject(int i) const {
    return squared_distance(triangles[static_cast<std::size_t>(i)], point);
  }
};

template <class Tree>
std::optional<RayHit> cast(const Tree& tree, const Vector3d& origin, const Vector3d& direction,
                           double least, bool exits_only) {
  NearestHit search{tree.triangles, origin, direction, least, exits_only};
  Eigen::BVIntersect(tree.boxes, search);
  if (search.triangle < 0) return std::nullopt;
  const Vector3d outward = tree.triangle(search.triangle).outward().normalized();
  return RayHit{search.distance, outward,
                tree.face_of_triangle[static_cast<std::size_t>(search.triangle)],
                outward.dot(direction) < 0.0};
}

}  // namespace

SurfaceRays::SurfaceRays(const Geometry& geometry, std::optional<BodyId> only)
    : tree_(std::make_unique<Tree>()) {
  tree_->small = 1e-9 * geometry.box.diagonal();
  for (const Body& body : geometry.bodies)
    if (body.modelled && (!only || *only == body.id)) tree_->bodies.push_back(body.id);
  const SurfaceTriangles& surface = geometry.surface;
  std::vector<Eigen::AlignedBox3d> boxes;
  std::vector<int> numbers;
  for (Eigen::Index t = 0; t < surface.triangles.cols(); ++t) {
    const FaceId face = surface.face_of_triangle[static_cast<std::size_t>(t)];
    const BodyId body = geometry.face(face).body;
    if (!geometry.body(body).modelled || (only && *only != body)) continue;
    numbers.push_back(static_cast<int>(tree_->triangles.size()));
    tree_->triangles.push_back(flat_triangle(surface, t));
    tree_->face_of_triangle.push_back(face);
    tree_->body_of_triangle.push_back(body);
    const FlatTriangle& added = tree_->triangles.back();
    // Thickened a little: flat faces have flat boxes.
    const Vector3d slack = Vector3d::Constant(tree_->small);
    Eigen::AlignedBox3d box(added.a);
    box.extend(added.b).extend(added.c);
    boxes.emplace_back(box.min() - slack, box.max() + slack);
  }
  tree_->boxes.init(numbers.begin(), numbers.end(), boxes.begin(), boxes.end());
}

SurfaceRays::~SurfaceRays() = default;
SurfaceRays::SurfaceRays(SurfaceRays&&) noexcept = default;

std::optional<RayHit> SurfaceRays::first_hit(const Vector3d& origin, const Vector3d& direction,
                                             double least) const {
  return cast(*tree_, origin, direction, least, false);
}

std::optional<RayHit> SurfaceRays::first_exit(const Vector3d& origin,
                                              const Vector3d& direction) const {
  // Nearer exits are the start itself.
  return cast(*tree_, origin, direction, 100.0 * tree_->small, true);
}

double SurfaceRays::distance(const Vector3d& point, double beyond) const {
  NearestPoint search{tree_->triangles, point, beyond * beyond};
  return std::min(beyond, std::sqrt(Eigen::BVMinimize(tree_->boxes, search)));
}

std::optional<BodyId> SurfaceRays::body_around(const Vector3d& point) const {
  for (const BodyId body : tree_->bodies) {
    double angle = 0.0;
    for (std::size_t i = 0; i < tree_->triangles.size(); ++i)
      if (tree_->body_of_triangle[i] == body) angle += solid_angle(tree_->triangles[i], point);
    if (angle > 2.0 * M_PI) return body;  // 4 pi inside, 0 outside
  }
  return std::nullopt;
}

std::vector<Vector3d> even_directions(int count) {
  // Equal steps in height, and the golden angle round.
  const double golden = M_PI * (3.0 - std::sqrt(5.0));
  std::vector<Vector3d> directions;
  for (int i = 0; i < count; ++i) {
    const double z = 1.0 - (2.0 * i + 1.0) / count;
    const double r = std::sqrt(1.0 - z * z), angle = golden * i + 0.1;
    directions.emplace_back(r * std::cos(angle), r * std::sin(angle), z);
  }
  return directions;
}

Vector3d normal_near(const Geometry& geometry, FaceId face, const Vector3d& point) {
  const SurfaceTriangles& surface = geometry.surface;
  Vector3d normal = Vector3d::Zero();
  double nearest = infinity;
  for (std::size_t i = 0; i < surface.face_of_triangle.size(); ++i) {
    if (surface.face_of_triangle[i] != face) continue;
    const FlatTriangle t = flat_triangle(surface, static_cast<Eigen::Index>(i));
    const double distance = ((t.a + t.b + t.c) / 3.0 - point).norm();
    if (distance < nearest) {
      nearest = distance;
      normal = t.outward().normalized();
    }
  }
  return normal;
}

}  // namespace crossgrain
