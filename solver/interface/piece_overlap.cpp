// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/piece_overlap.h"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "solver/elements/face_triangles.h"
#include "solver/elements/quadrature.h"
#include "solver/interface/triangle_clip.h"

namespace crossgrain {
namespace {

// Faces that touch look at each other; those round a corner from each other do not.
constexpr double least_facing = 0.5;
// Slivers of this share of a piece are round-off of edges that coincide.
constexpr double sliver = 1e-12;

/// Two axes in a piece's plane, so that it is seen from outside, counter-clockwise.
using PlaneAxes = Eigen::Matrix<double, 2, 3>;

PlaneAxes axes_across(const Eigen::Vector3d& normal) {
  PlaneAxes axes;
  axes.row(0) = normal.unitOrthogonal();
  axes.row(1) = normal.cross(Eigen::Vector3d(axes.row(0)));
  return axes;
}

/// Where on a curved triangle.
struct PlaceOnTriangle {
  InterfaceSide side;
  Eigen::Vector3d position;
};

/// The nearest point of the triangle that shape functions are given on.
Eigen::Vector2d within_triangle(const Eigen::Vector2d& local) {
  if (local.minCoeff() >= 0.0 && local.sum() <= 1.0) return local;
  if (local.sum() > 1.0) {
    const double along = std::clamp(0.5 * (1.0 + local[0] - local[1]), 0.0, 1.0);
    return {along, 1.0 - along};
  }
  return local.cwiseMax(0.0).cwiseMin(1.0);
}

/// The place seen at `at` in the plane: exact in a straight triangle, by Newton's method from there
/// in a curved one. Flat pieces reach beyond a face whose edge is bent inwards; out there a
/// triangle's mapping may turn over, so that its edge stands for what lies outside.
PlaceOnTriangle place_at(const TetrahedronMesh& mesh, const FlatPiece& piece, const PlaneAxes& axes,
                         const Eigen::Vector3d& origin, const Eigen::Vector2d& at) {
  const auto nodes = triangle_positions(mesh, piece.triangle);
  const PlaneTriangle flat = axes * (piece.corners.colwise() - origin);
  const Eigen::Vector2d share =
      (Eigen::Matrix2d() << flat.col(1) - flat.col(0), flat.col(2) - flat.col(0))
          .finished()
          .inverse() *
      (at - flat.col(0));
  Eigen::Vector2d local =
      piece.local.col(0) + (piece.local.rightCols<2>().colwise() - piece.local.col(0)) * share;
  local = within_triangle(local);
  Eigen::Matrix<double, 3, 2> tangents;
  for (int step = 0; step < 8; ++step) {
    tangents = nodes * triangle_local_gradients(local).transpose();
    const Eigen::Vector2d miss = at - axes * (nodes * triangle_shape(local) - origin);
    const Eigen::Vector2d next =
        within_triangle(local + Eigen::Matrix2d(axes * tangents).inverse() * miss);
    const double moved = (next - local).norm();
    local = next;
    if (!(moved > 1e-13)) break;
  }
  const TriangleShape shape = triangle_shape(local);
  const TriangleGradients local_gradients = triangle_local_gradients(local);
  tangents = nodes * local_gradients.transpose();
  const Eigen::Vector3d normal = tangents.col(0).cross(tangents.col(1)).normalized();
  // The tangents' duals in the face.
  const Eigen::Matrix<double, 3, 2> duals =
      tangents * Eigen::Matrix2d(tangents.transpose() * tangents).inverse();
  return {{piece.triangle, shape, duals * local_gradients, normal}, nodes * shape};
}

}  // namespace

void overlap_pieces(const TetrahedronMesh& mesh, const FlatPiece& first, const FlatPiece& second,
                    double reach, const std::function<void(const InterfacePoint&)>& visit) {
  if (!(first.normal.dot(second.normal) < -least_facing)) return;
  const PlaneAxes axes = axes_across(first.normal);
  const Eigen::Vector3d origin = first.corners.col(0);
  const PlaneTriangle mine = axes * (first.corners.colwise() - origin);
  PlaneTriangle other = axes * (second.corners.colwise() - origin);
  other.col(1).swap(other.col(2));  // seen from behind
  const auto polygon = clipped(mine, other);
  const auto& rule = surface_rule();
  for (std::size_t i = 2; i < polygon.size(); ++i) {
    PlaneTriangle part;
    part << polygon[0], polygon[i - 1], polygon[i];
    const double part_area = area_of(part);
    if (!(part_area > sliver * area_of(mine))) continue;
    for (Eigen::Index q = 0; q < rule.size(); ++q) {
      const Eigen::Vector2d at =
          part.col(0) + (part.rightCols<2>().colwise() - part.col(0)) * rule.points.col(q);
      const auto here = place_at(mesh, first, axes, origin, at);
      const auto there = place_at(mesh, second, axes, origin, at);
      InterfacePoint point;
      point.position = here.position;
      point.normal = (here.side.normal - there.side.normal).normalized();
      point.area = 2.0 * rule.weights[q] * part_area / here.side.normal.dot(first.normal);
      point.across = there.position - here.position;
      point.distance = point.across.dot(point.normal);
      point.sides = {here.side, there.side};
      if (std::abs(point.distance) <= reach) visit(point);
    }
  }
}

}  // namespace crossgrain
