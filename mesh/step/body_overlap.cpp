// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/body_overlap.h"

#include <BRepAdaptor_Surface.hxx>
#include <BRepAlgoAPI_Common.hxx>
#include <BRepBuilderAPI_MakeVertex.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRepGProp.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Builder.hxx>
#include <BRep_Tool.hxx>
#include <GProp_GProps.hxx>
#include <Poly_Triangulation.hxx>
#include <Standard_Failure.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <vector>

#include "mesh/geometry/geometry_words.h"
#include "mesh/geometry/kernel_vectors.h"

namespace crossgrain {
namespace {

constexpr double least_share = 1e-6;  // of the smaller body

// A point takes about a thousandth of a second.
constexpr std::size_t most_points = 400;

/// Corners and middles of a face's triangles, on its surface.
void add_points(const TopoDS_Face& face, std::vector<gp_Pnt>& points) {
  TopLoc_Location place;
  const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(face, place);
  if (mesh.IsNull() || !mesh->HasUVNodes()) return;
  for (int i = 1; i <= mesh->NbNodes(); ++i) points.push_back(mesh->Node(i).Transformed(place));
  const BRepAdaptor_Surface surface(face);
  for (int i = 1; i <= mesh->NbTriangles(); ++i) {
    int a = 0, b = 0, c = 0;
    mesh->Triangle(i).Get(a, b, c);
    const gp_XY middle = (mesh->UVNode(a).XY() + mesh->UVNode(b).XY() + mesh->UVNode(c).XY()) / 3.0;
    points.push_back(surface.Value(middle.X(), middle.Y()));
  }
}

std::vector<gp_Pnt> points_on(const TopoDS_Shape& shape) {
  const BRepMesh_IncrementalMesh triangulation(shape, 0.05, true, 0.3, false);
  std::vector<gp_Pnt> points;
  for (TopExp_Explorer face(shape, TopAbs_FACE); face.More(); face.Next())
    add_points(TopoDS::Face(face.Current()), points);
  const std::size_t stride = points.size() / most_points + 1;
  std::vector<gp_Pnt> some;
  for (std::size_t i = 0; i < points.size(); i += stride) some.push_back(points[i]);
  return some;
}

/// A solid's faces alone: points inside a solid are no distance from it.
TopoDS_Compound skin_of(const TopoDS_Shape& solid) {
  BRep_Builder builder;
  TopoDS_Compound skin;
  builder.MakeCompound(skin);
  for (TopExp_Explorer face(solid, TopAbs_FACE); face.More(); face.Next())
    builder.Add(skin, face.Current());
  return skin;
}

double distance(const gp_Pnt& point, const TopoDS_Compound& skin) {
  const BRepExtrema_DistShapeShape search(BRepBuilderAPI_MakeVertex(point).Vertex(), skin);
  return search.IsDone() ? search.Value() : 0.0;
}

}  // namespace

std::optional<BodyOverlap> overlap_of(const TopoDS_Shape& a, const TopoDS_Shape& b) {
  try {
    BRepAlgoAPI_Common common(a, b);
    GProp_GProps properties;
    BRepGProp::VolumeProperties(common.Shape(), properties);
    return BodyOverlap{properties.Mass(), vector_from(properties.CentreOfMass()), common.Shape()};
  } catch (const Standard_Failure&) {
    return std::nullopt;
  }
}

double overlap_depth(const BodyOverlap& overlap, const TopoDS_Shape& a, const TopoDS_Shape& b) {
  const TopoDS_Compound skin_a = skin_of(a), skin_b = skin_of(b);
  double deepest = 0.0;
  for (const gp_Pnt& point : points_on(overlap.shape))
    deepest = std::max({deepest, distance(point, skin_a), distance(point, skin_b)});
  return deepest;
}

bool may_overlap(const Body& a, const Body& b) {
  const Eigen::Vector3d common = a.box.high.cwiseMin(b.box.high) - a.box.low.cwiseMax(b.box.low);
  return (common.array() > 0.0).all() && common.prod() > least_share * std::min(a.volume, b.volume);
}

bool overlap(const Body& a, const Body& b, const BodyOverlap& overlap) {
  return overlap.volume > least_share * std::min(a.volume, b.volume);
}

std::string overlap_words(const Body& a, const Body& b, const BodyOverlap& overlap) {
  return "bodies " + words(a) + " and " + words(b) + " overlap by " + words(overlap.volume) +
         " mm^3 near " + words(overlap.centroid);
}

}  // namespace crossgrain
