// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/material_angles.h"

#include <BRepAdaptor_Curve.hxx>
#include <BRepAdaptor_Surface.hxx>
#include <BRepLProp_SLProps.hxx>
#include <BRep_Tool.hxx>
#include <Eigen/Geometry>
#include <Geom2d_Curve.hxx>
#include <TopoDS.hxx>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "mesh/geometry/kernel_vectors.h"

namespace crossgrain {
namespace {

using Eigen::Vector3d;

// Where along an edge, as a share of its parameter range: not at its ends, where a surface's normal
// may have no limit.
constexpr double places[] = {0.05, 0.275, 0.5, 0.725, 0.95};

/// A face on one side of an edge.
struct Side {
  FaceId face;
  bool forward;  ///< whether the face lies on the left of the edge's own direction
};

/// The face's outward unit normal at a place along an edge; none where the surface has none.
std::optional<Vector3d> outward_at(const TopoDS_Edge& edge, const TopoDS_Face& face, bool forward,
                                   double share) {
  const bool reversed = face.Orientation() == TopAbs_REVERSED;
  const TopoDS_Face surface = TopoDS::Face(face.Oriented(TopAbs_FORWARD));
  // Of a seam's two curves in the surface, the kernel chooses by the edge's orientation.
  const TopoDS_Edge side =
      TopoDS::Edge(edge.Oriented(forward != reversed ? TopAbs_FORWARD : TopAbs_REVERSED));
  double first = 0.0, last = 0.0;
  const Handle(Geom2d_Curve) curve = BRep_Tool::CurveOnSurface(side, surface, first, last);
  if (curve.IsNull()) return std::nullopt;
  const gp_Pnt2d uv = curve->Value(first + share * (last - first));
  const BRepAdaptor_Surface adaptor(surface, false);
  BRepLProp_SLProps properties(adaptor, uv.X(), uv.Y(), 1, 1e-9);
  if (!properties.IsNormalDefined()) return std::nullopt;
  const Vector3d normal = vector_from(properties.Normal());
  return reversed ? Vector3d(-normal) : normal;
}

/// From one face through the material to the other [deg].
/// @param along  unit, with face a on its left.
double angle_between(const Vector3d& along, const Vector3d& outward_a, const Vector3d& outward_b) {
  const Vector3d into_a = outward_a.cross(along), into_b = -outward_b.cross(along);
  const double angle = std::atan2(-into_b.dot(outward_a), into_b.dot(into_a));
  const double turn = 2.0 * std::numbers::pi;
  return (angle > 0.0 ? angle : angle + turn) * 360.0 / turn;
}

double greatest_angle(const TopoDS_Edge& edge, const Side& a, const Side& b,
                      const ShapeNumbering& numbers) {
  const TopoDS_Face face_a = TopoDS::Face(numbers.faces(number(a.face))),
                    face_b = TopoDS::Face(numbers.faces(number(b.face)));
  const BRepAdaptor_Curve curve(TopoDS::Edge(edge.Oriented(TopAbs_FORWARD)));
  const double first = curve.FirstParameter(), range = curve.LastParameter() - first;
  double greatest = 0.0;
  for (const double share : places) {
    gp_Pnt point;
    gp_Vec tangent;
    curve.D1(first + share * range, point, tangent);
    const Vector3d along = (a.forward ? 1.0 : -1.0) * vector_from(tangent).stableNormalized();
    const auto outward_a = outward_at(edge, face_a, a.forward, share),
               outward_b = outward_at(edge, face_b, b.forward, share);
    if (!outward_a || !outward_b || !(along.norm() > 0.5)) continue;
    greatest = std::max(greatest, angle_between(along, *outward_a, *outward_b));
  }
  return greatest > 0.0 ? greatest : 180.0;
}

}  // namespace

void measure_material_angles(Geometry& geometry, const ShapeNumbering& numbers) {
  std::vector<std::vector<Side>> sides(geometry.edges.size());
  for (const CadFace& face : geometry.faces)
    for (const auto& loop : face.loops)
      for (const LoopEdge& side : loop) sides[index(side.edge)].push_back({face.id, side.forward});
  for (CadEdge& edge : geometry.edges) {
    const std::vector<Side>& both = sides[index(edge.id)];
    if (edge.degenerate || both.size() != 2 || both[0].forward == both[1].forward) continue;
    edge.material_angle =
        greatest_angle(TopoDS::Edge(numbers.edges(number(edge.id))), both[0], both[1], numbers);
  }
}

}  // namespace crossgrain
