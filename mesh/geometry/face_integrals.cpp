// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/face_integrals.h"

#include <BRepAdaptor_Curve2d.hxx>
#include <BRepAdaptor_Surface.hxx>
#include <BRepTools.hxx>
#include <Eigen/Geometry>
#include <TColStd_Array1OfReal.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <cmath>
#include <vector>

#include "mesh/geometry/gauss_rule.h"
#include "mesh/geometry/kernel_vectors.h"

namespace crossgrain {
namespace {

using Sums = Eigen::Matrix<double, 11, 1>;  // the members of FaceIntegrals in order

std::vector<double> knots_of(const TColStd_Array1OfReal& array) {
  return {array.begin(), array.end()};
}

class SurfaceIntegrand {
 public:
  SurfaceIntegrand(const TopoDS_Face& forward_face, const Eigen::Vector3d& reference)
      : surface_(forward_face, false), reference_(reference) {
    double v_low = 0.0, v_high = 0.0;
    BRepTools::UVBounds(forward_face, u_low_, u_high_, v_low, v_high);
    const BRepAdaptor_Surface part(forward_face, true);
    TColStd_Array1OfReal knots(1, part.NbUIntervals(GeomAbs_CN) + 1);
    part.UIntervals(knots, GeomAbs_CN);
    knots_ = knots_of(knots);
  }

  /// From the lower end of the range to u, along constant v.
  Sums along_u(double u, double v, int pieces) const {
    Sums sum = Sums::Zero();
    double from = u_low_;
    for (const double knot : knots_) {
      if (knot > from && knot < u) {
        sum = integrate(from, knot, pieces, sum, [&](double at) { return value(at, v); });
        from = knot;
      }
    }
    return integrate(from, u, pieces, sum, [&](double at) { return value(at, v); });
  }

 private:
  Sums value(double u, double v) const {
    gp_Pnt point;
    gp_Vec along_u, along_v;
    surface_.D1(u, v, point, along_u, along_v);
    const Eigen::Vector3d r = vector_from(point) - reference_;
    const Eigen::Vector3d n = vector_from(along_u).cross(vector_from(along_v));
    Sums sums;
    sums << n.norm(), r * n.norm(), n, r.dot(n) / 3.0, 0.5 * r.cwiseAbs2().cwiseProduct(n);
    return sums;
  }

  BRepAdaptor_Surface surface_;
  Eigen::Vector3d reference_;
  double u_low_ = 0.0, u_high_ = 0.0;
  std::vector<double> knots_;
};

/// Green's theorem in the parameter plane: the integral over the face is the integral along its
/// boundary, taken with the face on the left, of (the integral along u) dv.
Sums along_boundary(const TopoDS_Face& forward_face, const SurfaceIntegrand& surface, int pieces) {
  Sums sum = Sums::Zero();
  for (TopExp_Explorer at(forward_face, TopAbs_EDGE); at.More(); at.Next()) {
    const TopoDS_Edge& edge = TopoDS::Edge(at.Current());
    const bool forward = edge.Orientation() == TopAbs_FORWARD;
    if (!forward && edge.Orientation() != TopAbs_REVERSED) {
      continue;
    }
    const BRepAdaptor_Curve2d curve(edge, forward_face);
    TColStd_Array1OfReal knots(1, curve.NbIntervals(GeomAbs_CN) + 1);
    curve.Intervals(knots, GeomAbs_CN);
    for (int i = knots.Lower(); i < knots.Upper(); ++i) {
      const auto piece = [&](double t) -> Sums {
        gp_Pnt2d at_t;
        gp_Vec2d tangent;
        curve.D1(t, at_t, tangent);
        if (tangent.Y() == 0.0) {
          return Sums::Zero();
        }
        return tangent.Y() * surface.along_u(at_t.X(), at_t.Y(), pieces);
      };
      sum += (forward ? 1.0 : -1.0) *
             integrate(knots(i), knots(i + 1), pieces, Sums(Sums::Zero()), piece);
    }
  }
  return sum;
}

}  // namespace

FaceIntegrals integrate_over(const TopoDS_Face& face, const Eigen::Vector3d& reference) {
  constexpr double precision = 1e-7;
  constexpr int most_pieces = 8;
  const TopoDS_Face forward = TopoDS::Face(face.Oriented(TopAbs_FORWARD));
  const SurfaceIntegrand surface(forward, reference);
  Sums sums = along_boundary(forward, surface, 1);
  for (int pieces = 2; pieces <= most_pieces; pieces *= 2) {
    const Sums finer = along_boundary(forward, surface, pieces);
    const bool settled = std::abs(finer[0] - sums[0]) < precision * finer[0] &&
                         (finer.segment<3>(4) - sums.segment<3>(4)).norm() < precision * finer[0];
    sums = finer;
    if (settled) {
      break;
    }
  }
  const double sign = face.Orientation() == TopAbs_REVERSED ? -1.0 : 1.0;
  return {sums[0], sums.segment<3>(1), sign * sums.segment<3>(4), sign * sums[7],
          sign * sums.segment<3>(8)};
}

}  // namespace crossgrain
