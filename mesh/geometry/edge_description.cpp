// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/edge_description.h"

#include <BRepAdaptor_Curve.hxx>
#include <BRep_Tool.hxx>
#include <Eigen/Geometry>
#include <GCPnts_TangentialDeflection.hxx>
#include <TColStd_Array1OfReal.hxx>
#include <TopExp.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Vertex.hxx>
#include <algorithm>
#include <cmath>

#include "mesh/geometry/gauss_rule.h"
#include "mesh/geometry/kernel_vectors.h"

namespace crossgrain {
namespace {

/// Integrals along a curve, in its own direction.
struct CurveIntegrals {
  double length = 0.0;
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();      ///< of r ds
  Eigen::Vector3d swept_area = Eigen::Vector3d::Zero();  ///< of r x dr / 2
};

CurveIntegrals integrate_along(const BRepAdaptor_Curve& curve) {
  using Sums = Eigen::Matrix<double, 7, 1>;
  // Eight pieces of a full circle leave an error of 1e-14.
  constexpr int pieces = 8;
  TColStd_Array1OfReal knots(1, curve.NbIntervals(GeomAbs_CN) + 1);
  curve.Intervals(knots, GeomAbs_CN);
  Sums sums = Sums::Zero();
  for (int span = knots.Lower(); span < knots.Upper(); ++span) {
    sums = integrate(knots(span), knots(span + 1), pieces, sums, [&](double t) {
      gp_Pnt point;
      gp_Vec tangent;
      curve.D1(t, point, tangent);
      const Eigen::Vector3d r = vector_from(point), dr = vector_from(tangent);
      Sums at;
      at << dr.norm(), r * dr.norm(), 0.5 * r.cross(dr);
      return at;
    });
  }
  return {sums[0], sums.segment<3>(1), sums.segment<3>(4)};
}

/// Fit a circle through points of a curve that is not stored as one.
void recognise_circle(CadEdge& edge, const BRepAdaptor_Curve& curve) {
  constexpr int samples = 17;
  constexpr double tolerance = 1e-3;  // [mm] finer than any printer
  const double first = curve.FirstParameter();
  const double step = (curve.LastParameter() - first) / samples;
  const auto point = [&](int i) { return vector_from(curve.Value(first + step * i)); };
  const Eigen::Vector3d a = point(0), b = point(samples / 3), c = point(2 * samples / 3);
  const Eigen::Vector3d u = b - a, v = c - a, normal = u.cross(v);
  if (!(normal.norm() > 1e-6 * u.norm() * v.norm())) {
    return;  // straight
  }
  const Eigen::Vector3d centre =
      a + (u.squaredNorm() * v.cross(normal) + v.squaredNorm() * normal.cross(u)) /
              (2.0 * normal.squaredNorm());
  const double radius = (a - centre).norm();
  for (int i = 0; i <= samples; ++i) {
    const Eigen::Vector3d spoke = point(i) - centre;
    if (!(std::abs(spoke.norm() - radius) < tolerance &&
          std::abs(spoke.dot(normal.normalized())) < tolerance)) {
      return;
    }
  }
  edge.circle_radius = radius;
  edge.circle_centre = centre;
  edge.circle_axis = normal.normalized();
}

void set_circle(CadEdge& edge, const BRepAdaptor_Curve& curve) {
  if (curve.GetType() == GeomAbs_Circle) {
    edge.circle_radius = curve.Circle().Radius();
    edge.circle_centre = vector_from(curve.Circle().Location());
    edge.circle_axis = vector_from(curve.Circle().Axis().Direction());
  } else if (curve.GetType() != GeomAbs_Line) {
    recognise_circle(edge, curve);
  }
}

/// By chords that turn by no more than 7 degrees, at least two of them on a curve that closes.
Eigen::Matrix3Xd course_of(const BRepAdaptor_Curve& curve) {
  constexpr double turn = 0.12;  // [rad]
  const GCPnts_TangentialDeflection points(curve, turn, 1e10, 2);
  Eigen::Matrix3Xd course(3, points.NbPoints());
  for (int i = 1; i <= points.NbPoints(); ++i) course.col(i - 1) = vector_from(points.Value(i));
  return course;
}

}  // namespace

CadEdge describe_edge(const TopoDS_Edge& shape) {
  CadEdge edge{};
  edge.swept_area = Eigen::Vector3d::Zero();
  const TopoDS_Edge forward = TopoDS::Edge(shape.Oriented(TopAbs_FORWARD));
  const TopoDS_Vertex start = TopExp::FirstVertex(forward), end = TopExp::LastVertex(forward);
  edge.closed = !start.IsNull() && start.IsSame(end);
  if (BRep_Tool::Degenerated(forward) || !BRep_Tool::IsGeometric(forward)) {
    edge.degenerate = true;
    edge.middle = start.IsNull() ? Eigen::Vector3d::Zero() : vector_from(BRep_Tool::Pnt(start));
    edge.centroid = edge.middle;
    return edge;
  }
  const BRepAdaptor_Curve curve(forward);
  edge.middle = vector_from(curve.Value(0.5 * (curve.FirstParameter() + curve.LastParameter())));
  const CurveIntegrals integrals = integrate_along(curve);
  edge.length = integrals.length;
  edge.centroid = edge.length > 0.0 ? integrals.moment / edge.length : edge.middle;
  edge.swept_area = integrals.swept_area;
  set_circle(edge, curve);
  edge.course = course_of(curve);
  return edge;
}

}  // namespace crossgrain
