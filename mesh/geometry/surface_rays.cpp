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

/// Of numbered triangles, each with one box or several.
using BoxTree = Eigen::KdBVH<double, 3, int>;

struct SurfaceRays::Tree {
  std::vector<FlatTriangle> triangles;
  std::vector<FaceId> face_of_triangle;
  std::vector<BodyId> body_of_triangle;
  std::vector<BodyId> bodies;
  BoxTree boxes;
  double small = 0.0;  ///< no more than rounding [mm]

  const FlatTriangle& triangle(int i) const { return triangles[static_cast<std::size_t>(i)]; }
};

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Visitor of the tree that keeps the nearest hit.
class NearestHit {
 public:
  using Scalar = double;
  NearestHit(const std::vector<FlatTriangle>& triangles, const Vector3d& origin,
             const Vector3d& direction, double least, double beyond, bool exits_only)
      : triangles_(triangles),
        origin_(origin),
        direction_(direction),
        inverse_(direction.cwiseInverse()),
        least_(least),
        exits_only_(exits_only),
        distance_(beyond) {}

  /// Where the ray enters a box.
  double minimumOnVolume(const Eigen::AlignedBox3d& box) const {
    double enter = 0.0, leave = infinity;
    for (int i = 0; i < 3; ++i) {
      const double low = box.min()[i] - origin_[i], high = box.max()[i] - origin_[i];
      if (direction_[i] == 0.0) {
        if (low > 0.0 || high < 0.0) return infinity;
        continue;
      }
      const double a = low * inverse_[i], b = high * inverse_[i];
      enter = std::max(enter, std::min(a, b));
      leave = std::min(leave, std::max(a, b));
    }
    return enter <= leave && enter <= distance_ ? enter : infinity;
  }
  double minimumOnObject(int i) {
    const FlatTriangle& candidate = triangles_[static_cast<std::size_t>(i)];
    if (exits_only_ && !(candidate.outward().dot(direction_) > 0.0)) return infinity;
    const double d = distance_along_ray(candidate, origin_, direction_);
    // Of two hits at a common edge the lower number counts, in whatever order the tree shows them.
    if (d >= least_ && (d < distance_ || (d == distance_ && i < triangle_))) {
      distance_ = d;
      triangle_ = i;
    }
    return d >= least_ ? d : infinity;
  }
  double distance() const { return distance_; }
  int triangle() const { return triangle_; }

 private:
  const std::vector<FlatTriangle>& triangles_;
  Vector3d origin_, direction_, inverse_;
  double least_;
  bool exits_only_;
  double distance_;
  int triangle_ = -1;
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
                           double least, double beyond, bool exits_only) {
  NearestHit search(tree.triangles, origin, direction, least, beyond, exits_only);
  if (!tree.triangles.empty()) Eigen::BVMinimize(tree.boxes, search);
  if (search.triangle() < 0) return std::nullopt;
  const Vector3d outward = tree.triangle(search.triangle()).outward().normalized();
  return RayHit{search.distance(), outward,
                tree.face_of_triangle[static_cast<std::size_t>(search.triangle())],
                outward.dot(direction) < 0.0};
}

/// Boxes and the triangles that they hold parts of.
struct Boxes {
  std::vector<Eigen::AlignedBox3d> boxes;
  std::vector<int> numbers;
};

/// The boxes of a triangle's parts, halved until none is longer than `longest` [mm]: the box of a
/// long slanting triangle is mostly empty, and every search would enter it in vain.
void add_boxes(const FlatTriangle& t, int number, double longest, double slack, Boxes& to) {
  const double ab = (t.b - t.a).norm(), bc = (t.c - t.b).norm(), ca = (t.a - t.c).norm();
  const double length = std::max({ab, bc, ca});
  if (!(length > longest)) {
    Eigen::AlignedBox3d box(t.a);
    box.extend(t.b).extend(t.c);
    // Thickened a little: flat faces have flat boxes.
    to.boxes.emplace_back(box.min().array() - slack, box.max().array() + slack);
    to.numbers.push_back(number);
    return;
  }
  const FlatTriangle turned = length == ab   ? t
                              : length == bc ? FlatTriangle{t.b, t.c, t.a}
                                             : FlatTriangle{t.c, t.a, t.b};
  const Vector3d middle = 0.5 * (turned.a + turned.b);
  add_boxes({turned.a, middle, turned.c}, number, longest, slack, to);
  add_boxes({middle, turned.b, turned.c}, number, longest, slack, to);
}

BoxTree box_tree(const std::vector<FlatTriangle>& triangles, double slack) {
  constexpr double most_added = 40000.0;  // boxes: about a second's work
  double area = 0.0;
  for (const FlatTriangle& t : triangles) area += 0.5 * t.outward().norm();
  const double longest = 3.0 * std::sqrt(area / most_added);
  Boxes all;
  for (std::size_t i = 0; i < triangles.size(); ++i)
    add_boxes(triangles[i], static_cast<int>(i), longest, slack, all);
  return {all.numbers.begin(), all.numbers.end(), all.boxes.begin(), all.boxes.end()};
}

}  // namespace

SurfaceRays::SurfaceRays(const Geometry& geometry, std::optional<BodyId> only)
    : tree_(std::make_unique<Tree>()) {
  tree_->small = 1e-9 * geometry.box.diagonal();
  for (const Body& body : geometry.bodies)
    if (body.modelled && (!only || *only == body.id)) tree_->bodies.push_back(body.id);
  const SurfaceTriangles& surface = geometry.surface;
  for (Eigen::Index t = 0; t < surface.triangles.cols(); ++t) {
    const FaceId face = surface.face_of_triangle[static_cast<std::size_t>(t)];
    const BodyId body = geometry.face(face).body;
    if (!geometry.body(body).modelled || (only && *only != body)) continue;
    tree_->triangles.push_back(flat_triangle(surface, t));
    tree_->face_of_triangle.push_back(face);
    tree_->body_of_triangle.push_back(body);
  }
  tree_->boxes = box_tree(tree_->triangles, tree_->small);
}

SurfaceRays::~SurfaceRays() = default;
SurfaceRays::SurfaceRays(SurfaceRays&&) noexcept = default;

std::optional<RayHit> SurfaceRays::first_hit(const Vector3d& origin, const Vector3d& direction,
                                             double least) const {
  return cast(*tree_, origin, direction, least, infinity, false);
}

std::optional<RayHit> SurfaceRays::first_exit(const Vector3d& origin, const Vector3d& direction,
                                              double beyond) const {
  // Nearer exits are the start itself.
  return cast(*tree_, origin, direction, 100.0 * tree_->small, beyond, true);
}

double SurfaceRays::distance(const Vector3d& point, double beyond) const {
  if (tree_->triangles.empty()) return beyond;
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
