// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/surface_triangles.h"

#include <BRepMesh_IncrementalMesh.hxx>
#include <BRepTools.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>

#include "mesh/geometry/kernel_vectors.h"

namespace crossgrain {
namespace {

struct Growing {
  std::vector<Eigen::Vector3d> points;
  std::vector<Eigen::Vector3i> triangles;
  std::vector<FaceId> faces;
};

bool append(Growing& surface, const TopoDS_Face& face, FaceId id) {
  TopLoc_Location place;
  const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(face, place);
  if (mesh.IsNull() || mesh->NbTriangles() == 0) {
    return false;
  }
  const int offset = static_cast<int>(surface.points.size()) - 1;  // the kernel counts from 1
  for (int i = 1; i <= mesh->NbNodes(); ++i) {
    surface.points.push_back(vector_from(mesh->Node(i).Transformed(place)));
  }
  for (int i = 1; i <= mesh->NbTriangles(); ++i) {
    int a = 0, b = 0, c = 0;
    mesh->Triangle(i).Get(a, b, c);
    if (face.Orientation() == TopAbs_REVERSED) {
      std::swap(b, c);
    }
    surface.triangles.push_back(Eigen::Vector3i(a, b, c).array() + offset);
    surface.faces.push_back(id);
  }
  return true;
}

}  // namespace

SurfaceTriangles triangulate(const TopoDS_Shape& shape, const TopTools_IndexedMapOfShape& faces,
                             double diagonal, std::vector<FaceId>& failed) {
  constexpr double chord = 5e-4;  // of the diagonal: below a pixel in a picture
  constexpr double angle = 0.25;  // [rad] 25 chords on a full circle
  const BRepMesh_IncrementalMesh triangulation(shape, chord * diagonal, false, angle, false);
  Growing surface;
  for (int i = 1; i <= faces.Extent(); ++i) {
    if (!append(surface, TopoDS::Face(faces(i)), FaceId{i})) {
      failed.push_back(FaceId{i});
    }
  }
  BRepTools::Clean(shape);  // Gmsh is handed the shape next and makes its own
  SurfaceTriangles result;
  result.points.resize(3, static_cast<Eigen::Index>(surface.points.size()));
  result.triangles.resize(3, static_cast<Eigen::Index>(surface.triangles.size()));
  for (std::size_t i = 0; i < surface.points.size(); ++i) {
    result.points.col(static_cast<Eigen::Index>(i)) = surface.points[i];
  }
  for (std::size_t i = 0; i < surface.triangles.size(); ++i) {
    result.triangles.col(static_cast<Eigen::Index>(i)) = surface.triangles[i];
  }
  result.face_of_triangle = std::move(surface.faces);
  return result;
}

}  // namespace crossgrain
