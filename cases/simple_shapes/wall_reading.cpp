// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/wall_reading.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

namespace crossgrain {
namespace {

/// To a sphere about the origin, or a cylinder by what is square to its axis: of the two roots the
/// one nearer to what was found; nothing if the ray misses it.
std::optional<double> to_round(const Eigen::Vector3d& from, const Eigen::Vector3d& along,
                               double radius, double found) {
  const double a = along.squaredNorm();
  const double half = from.dot(along) / a;
  const double root = half * half - (from.squaredNorm() - radius * radius) / a;
  if (!(a > 1e-12) || !(root >= 0.0)) return std::nullopt;
  const double near = -half - std::sqrt(root), far = -half + std::sqrt(root);
  return std::abs(near - found) < std::abs(far - found) ? near : far;
}

}  // namespace

double exact_distance(const CadFace& face, const Eigen::Vector3d& from,
                      const Eigen::Vector3d& along, double found) {
  std::optional<double> exact;
  const Eigen::Vector3d start = from - face.origin;
  if (face.kind == SurfaceKind::plane && std::abs(face.axis.dot(along)) > 1e-6) {
    exact = -start.dot(face.axis) / along.dot(face.axis);
  } else if (face.kind == SurfaceKind::sphere) {
    exact = to_round(start, along, face.radius, found);
  } else if (face.kind == SurfaceKind::cylinder) {
    exact = to_round(start - start.dot(face.axis) * face.axis,
                     along - along.dot(face.axis) * face.axis, face.radius, found);
  }
  // Triangles stray from the surface by a small part of the radius; the other root is far away.
  const double stray = 0.02 * (found + face.radius);
  return exact && std::abs(*exact - found) < stray ? *exact : found;
}

std::optional<WallReading> read_wall(const Geometry& geometry, const SurfaceRays& rays,
                                     const Eigen::Vector3d& from, const Eigen::Vector3d& inward) {
  constexpr double square = 0.966;  // cosine of 15 degrees
  const auto exit = rays.first_exit(from, inward);
  if (!exit) return std::nullopt;
  const double thickness = exact_distance(geometry.face(exit->face), from, inward, exit->distance);
  if (!(thickness > 0.0)) return std::nullopt;
  return WallReading{from, inward, thickness, exit->face, exit->outward.dot(inward) > square};
}

double median_of(std::vector<double> values) {
  if (values.empty()) return 0.0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

bool even(double wall, double other) {
  return std::abs(wall - other) <= 0.05 * std::max(wall, other);
}

}  // namespace crossgrain
