// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/off_surface.h"

#include <BRep_Tool.hxx>
#include <ShapeAnalysis_Surface.hxx>
#include <TopExp.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <map>

#include "mesh/geometry/kernel_vectors.h"

namespace crossgrain {
namespace {

using Eigen::Vector3d;

/// The surface under a face, without its boundary.
class FaceSurface {
 public:
  explicit FaceSurface(const TopoDS_Face& face)
      : surface_(new ShapeAnalysis_Surface(BRep_Tool::Surface(face))),
        slack_(BRep_Tool::MaxTolerance(face, TopAbs_EDGE)) {}

  /// From a point [mm]; its nodes on edges may lie off by what the file's edges do.
  double distance(const Vector3d& point) const {
    const gp_Pnt at(point.x(), point.y(), point.z());
    constexpr double precision = 1e-9;  // mm
    const gp_Pnt2d uv = surface_->ValueOfUV(at, precision);
    return std::max(0.0, surface_->Value(uv).Distance(at) - slack_);
  }

 private:
  Handle(ShapeAnalysis_Surface) surface_;
  double slack_;
};

std::map<FaceId, FaceSurface> surfaces_of(const ConformalShape& shape) {
  TopTools_IndexedMapOfShape faces;
  TopExp::MapShapes(shape.shape, TopAbs_FACE, faces);
  std::map<FaceId, FaceSurface> surfaces;
  for (int i = 1; i <= faces.Extent(); ++i)
    for (const FaceOwner& owner : shape.owners_of_face[static_cast<std::size_t>(i - 1)])
      surfaces.try_emplace(owner.face, TopoDS::Face(faces(i)));
  return surfaces;
}

}  // namespace

std::optional<OffSurface> node_off_surface(const TetrahedronMesh& mesh,
                                           const ConformalShape& shape) {
  const std::map<FaceId, FaceSurface> surfaces = surfaces_of(shape);
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t) {
    const FaceId face = mesh.face_of_triangle[static_cast<std::size_t>(t)];
    const FaceSurface& surface = surfaces.at(face);
    const auto node = [&](int i) -> Vector3d { return mesh.nodes.col(mesh.triangles(i, t)); };
    double longest = 0.0;
    for (int i = 0; i < 3; ++i) longest = std::max(longest, (node(i) - node((i + 1) % 3)).norm());
    for (int i = 0; i < 6; ++i) {
      const double distance = surface.distance(node(i));
      double allowed = off_surface_share * longest;
      if (distance <= allowed) continue;
      if (i >= 3) allowed += surface.distance(0.5 * (node(i - 3) + node((i - 2) % 3)));
      // NaN is off, too.
      if (!(distance <= allowed)) return OffSurface{face, node(i), distance};
    }
  }
  return std::nullopt;
}

}  // namespace crossgrain
