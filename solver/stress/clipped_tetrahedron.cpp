// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/clipped_tetrahedron.h"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <tuple>

#include "mesh/tetrahedra/tetrahedron_sides.h"
#include "solver/elements/quadrature.h"

namespace crossgrain {
namespace {

using Eigen::Matrix3d;
using Eigen::Matrix4d;
using Eigen::RowVector4d;
using Eigen::Vector3d;
using Eigen::Vector4d;

// A side is cut in four while it is larger than this many distances from the centre, at most so
// often: beyond, what it adds is lost among the rest.
constexpr double widest_side = 1.0;
constexpr int most_cuts = 2;

Matrix3d side_of(const StraightTetrahedron& corners, int side) {
  const auto& local = tetrahedron_sides[side];
  return corners(Eigen::all, {local[0], local[1], local[2]});
}

// Positions from here on are those from the ball's centre.

/// Barycentric coordinates as functions of 1, x.
Matrix4d barycentric(const StraightTetrahedron& corners) {
  Matrix4d positions;
  positions << RowVector4d::Ones(), corners;
  return positions.inverse();
}

constexpr int rays_per_side = 12;
using PerRay = Eigen::Array<double, rays_per_side, 1>;

/// The rule across a side, in arrays whose size the compiler knows.
struct RayRule {
  PerRay along_u = surface_rule().points.row(0).transpose();
  PerRay along_v = surface_rule().points.row(1).transpose();
  PerRay weights = surface_rule().weights;
};

/// Integrals of the products of 1, x.
class ConeIntegral {
 public:
  explicit ConeIntegral(double radius) : radius_(radius) {}

  /// The part of the cone over a triangle that lies in the ball, with the sign of the side that
  /// faces the centre.
  void add(const Matrix3d& triangle, int cuts = 0) {
    const Vector3d u = triangle.col(1) - triangle.col(0), v = triangle.col(2) - triangle.col(0);
    const Vector3d normal = u.cross(v), middle = triangle.rowwise().mean();
    const double size = (triangle.colwise() - middle).colwise().norm().maxCoeff();
    // A side that points at the centre has no cone.
    if (std::abs(normal.dot(middle)) <= 1e-12 * size * normal.norm()) return;
    if (cuts < most_cuts && size > widest_side * middle.norm()) {
      const Vector3d a = triangle.col(0), b = triangle.col(1), c = triangle.col(2);
      const Vector3d ab = 0.5 * (a + b), bc = 0.5 * (b + c), ca = 0.5 * (c + a);
      for (const auto& [p, q, r] : {std::tuple{a, ab, ca}, {ab, b, bc}, {ca, bc, c}, {ab, bc, ca}})
        add((Matrix3d() << p, q, r).finished(), cuts + 1);
      return;
    }
    add_rays(triangle.col(0), u, v, normal);
  }

  Matrix4d moments() const {
    Matrix4d all;
    all << volume_, first_.transpose(), first_, Matrix3d(second_.selfadjointView<Eigen::Lower>());
    return all;
  }

 private:
  /// x = s ray, s from 0 to where the side or the sphere is met; dV = s^2 ds times a
  /// weight, the same along the ray. All rays side by side.
  void add_rays(const Vector3d& corner, const Vector3d& u, const Vector3d& v,
                const Vector3d& normal) {
    static const RayRule rule;
    PerRay ray[3];
    for (int k = 0; k < 3; ++k) ray[k] = corner[k] + u[k] * rule.along_u + v[k] * rule.along_v;
    const PerRay s =
        (radius_ / (ray[0].square() + ray[1].square() + ray[2].square()).sqrt()).min(1.0);
    const PerRay third = normal.dot(corner) * rule.weights * s.cube();
    const PerRay fourth = third * s, fifth = fourth * s / 5.0;
    volume_ += third.sum() / 3.0;
    for (int k = 0; k < 3; ++k) {
      first_[k] += (ray[k] * fourth).sum() / 4.0;
      const PerRay weighted = ray[k] * fifth;
      for (int l = 0; l <= k; ++l) second_(k, l) += (weighted * ray[l]).sum();
    }
  }

  double radius_;
  double volume_ = 0.0;
  Vector3d first_ = Vector3d::Zero();
  Matrix3d second_ = Matrix3d::Zero();  ///< its lower half
};

double volume_of(const StraightTetrahedron& corners) {
  const Matrix3d edges = corners.rightCols<3>().colwise() - corners.col(0);
  return edges.determinant() / 6.0;
}

/// Products of barycentric coordinates integrate to V / 20, their squares to V / 10.
Matrix4d whole_moments(const StraightTetrahedron& corners, double radius, double volume) {
  Matrix4d functions;  // of corner, at corner
  functions << Vector4d::Ones(), (corners / radius).transpose();
  return volume / 20.0 * (Matrix4d::Ones() + Matrix4d::Identity()) * functions;
}

/// Of a tetrahedron without a corner in the ball.
bool meets(const StraightTetrahedron& corners, double radius) {
  bool inside = true;
  for (int side = 0; side < 4; ++side) {
    const Matrix3d triangle = side_of(corners, side);
    if (distance_to_triangle(triangle, Vector3d::Zero()) < radius) return true;
    const Vector3d normal =
        (triangle.col(1) - triangle.col(0)).cross(triangle.col(2) - triangle.col(0));
    inside = inside && normal.dot(triangle.col(0)) >= 0.0;
  }
  return inside;
}

}  // namespace

double distance_to_triangle(const Matrix3d& corners, const Vector3d& point) {
  const Vector3d a = corners.col(0), ab = corners.col(1) - a, ac = corners.col(2) - a,
                 ap = point - a;
  // In the plane, if the foot is inside; else nearest to one of the edges.
  const double bb = ab.squaredNorm(), bc = ab.dot(ac), cc = ac.squaredNorm();
  const double pb = ap.dot(ab), pc = ap.dot(ac), det = bb * cc - bc * bc;
  const double v = (cc * pb - bc * pc) / det, w = (bb * pc - bc * pb) / det;
  if (det > 0.0 && v >= 0.0 && w >= 0.0 && v + w <= 1.0) return (ap - v * ab - w * ac).norm();
  double least = ap.norm();
  for (int i = 0; i < 3; ++i) {
    const Vector3d from = corners.col(i), edge = corners.col((i + 1) % 3) - from;
    const double along =
        std::clamp((point - from).dot(edge) / std::max(edge.squaredNorm(), 1e-300), 0.0, 1.0);
    least = std::min(least, (point - from - along * edge).norm());
  }
  return least;
}

std::optional<Matrix4d> clipped_moments(const StraightTetrahedron& corners, const Ball& ball) {
  const double radius = ball.radius;
  const StraightTetrahedron from = corners.colwise() - ball.centre;
  // Most are far off: their box, then their sphere, tells.
  if ((from.rowwise().minCoeff().array() >= radius).any() ||
      (from.rowwise().maxCoeff().array() <= -radius).any())
    return std::nullopt;
  const Vector3d middle = from.rowwise().mean();
  const double reach = std::sqrt((from.colwise() - middle).colwise().squaredNorm().maxCoeff());
  if (middle.norm() >= radius + reach) return std::nullopt;
  const double volume = volume_of(from);
  if (!(volume > 1e-12 * reach * reach * reach)) return std::nullopt;
  const RowVector4d distances = from.colwise().norm();
  if (distances.maxCoeff() <= radius) return whole_moments(from, radius, volume);
  if (distances.minCoeff() >= radius && !meets(from, radius)) return std::nullopt;
  ConeIntegral integral(radius);
  for (int side = 0; side < 4; ++side) integral.add(side_of(from, side));
  const Vector4d scale(1.0, 1.0 / radius, 1.0 / radius, 1.0 / radius);
  return Matrix4d(barycentric(from) * integral.moments() * scale.asDiagonal());
}

}  // namespace crossgrain
