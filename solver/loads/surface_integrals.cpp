// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/loads/surface_integrals.h"

#include <Eigen/Geometry>
#include <cmath>
#include <sstream>
#include <stdexcept>

#include "solver/elements/face_triangles.h"
#include "solver/elements/quadrature.h"

namespace crossgrain {
namespace {

// Every triangle is divided this often, so that an annulus inside one is not missed ...
constexpr int least_divisions = 2;
// ... and where the weight jumps, this often.
constexpr int most_divisions = 6;

/// A part of the unit triangle: its corners as columns.
using Part = Eigen::Matrix<double, 2, 3>;

class TriangleWalk {
 public:
  TriangleWalk(const TetrahedronMesh& mesh, const ScalarOfPosition& weight,
               const std::function<void(const SurfacePoint&)>& visit)
      : mesh_(mesh), weight_(weight), visit_(visit) {}

  void walk(int triangle) {
    triangle_ = triangle;
    positions_ = triangle_positions(mesh_, triangle);
    Part whole;
    whole << 0, 1, 0, 0, 0, 1;
    divide(whole, 0);
  }

 private:
  void divide(const Part& part, int divisions) {
    if (!weight_ || divisions == most_divisions ||
        (divisions >= least_divisions && !weight_jumps(part)))
      return integrate(part, std::pow(0.25, divisions));
    const Part middles =
        0.5 * (part + (Part() << part.col(1), part.col(2), part.col(0)).finished());
    for (int corner = 0; corner < 3; ++corner) {
      Part child;
      child << part.col(corner), middles.col(corner), middles.col((corner + 2) % 3);
      divide(child, divisions + 1);
    }
    divide(middles, divisions + 1);
  }

  /// By more than a tenth over the corners and quadrature points of the part. Smooth weights do
  /// not: their variation is the rule's business.
  bool weight_jumps(const Part& part) const {
    double least = weight_at(part.col(0)), most = least;
    const auto look = [&](const Eigen::Vector2d& local) {
      const double w = weight_at(local);
      least = std::min(least, w);
      most = std::max(most, w);
    };
    look(part.col(1));
    look(part.col(2));
    for (const auto& point : surface_rule().points.colwise()) look(inside(part, point));
    return most - least > 0.1 * most;
  }

  void integrate(const Part& part, double share) const {
    const auto& rule = surface_rule();
    for (Eigen::Index q = 0; q < rule.size(); ++q) {
      const Eigen::Vector2d local = inside(part, rule.points.col(q));
      SurfacePoint point;
      point.shape = triangle_shape(local);
      point.position = positions_ * point.shape;
      point.weight = weight_ ? checked_weight(point.position) : 1.0;
      if (point.weight == 0.0) continue;
      const Eigen::Matrix<double, 3, 2> tangents =
          positions_ * triangle_local_gradients(local).transpose();
      point.area = share * rule.weights[q] * tangents.col(0).cross(tangents.col(1));
      point.triangle = triangle_;
      visit_(point);
    }
  }

  static Eigen::Vector2d inside(const Part& part, const Eigen::Vector2d& local) {
    return part.col(0) + (part.rightCols<2>().colwise() - part.col(0)) * local;
  }
  double weight_at(const Eigen::Vector2d& local) const {
    return checked_weight(positions_ * triangle_shape(local));
  }
  double checked_weight(const Eigen::Vector3d& position) const {
    const double weight = weight_(position);
    if (weight >= 0.0 && std::isfinite(weight)) return weight;
    std::ostringstream message;
    message << "a face's weight is " << weight << " at ("
            << position.transpose().format(Eigen::IOFormat(6, 0, ", "))
            << ") mm; it must be zero or positive";
    throw std::invalid_argument(message.str());
  }

  const TetrahedronMesh& mesh_;
  const ScalarOfPosition& weight_;
  const std::function<void(const SurfacePoint&)>& visit_;
  int triangle_ = -1;
  Eigen::Matrix<double, 3, 6> positions_;
};

}  // namespace

void for_each_surface_point(const TetrahedronMesh& mesh, const std::vector<int>& triangles,
                            const ScalarOfPosition& weight,
                            const std::function<void(const SurfacePoint&)>& visit) {
  TriangleWalk walk(mesh, weight, visit);
  for (int triangle : triangles) walk.walk(triangle);
}

}  // namespace crossgrain
