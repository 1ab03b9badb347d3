// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/surface_samples.h"

#include <BRepAdaptor_Surface.hxx>
#include <BRepLProp_SLProps.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRepTools.hxx>
#include <BRep_Tool.hxx>
#include <Eigen/Geometry>
#include <Poly_Triangulation.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/geometry/kernel_vectors.h"
#include "mesh/geometry/wall_angle.h"

namespace crossgrain {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

// A triangle is halved at most this often: a guard against surfaces without measure.
constexpr int most_halvings = 24;

struct Corner {
  Vector2d uv;
  Vector3d point;
};

/// Samples one CAD face by halving its triangles until they are small enough.
class FaceSampler {
 public:
  FaceSampler(const TopoDS_Face& face, const CadFace& description, const SurfaceRays& rays,
              const SizeRules& rules, std::vector<SurfaceSample>& samples)
      : surface_(face),
        description_(description),
        rays_(rays),
        rules_(rules),
        samples_(samples),
        reversed_(face.Orientation() == TopAbs_REVERSED),
        properties_(surface_, 2, 1e-9) {}

  void take(const std::array<Corner, 3>& triangle, int depth = 0) {
    int longest = 0;
    double length = 0.0;
    for (int i = 0; i < 3; ++i) {
      const double edge = (triangle[(i + 1) % 3].point - triangle[i].point).norm();
      if (edge > length) {
        length = edge;
        longest = i;
      }
    }
    if (!(length > 0.0)) return;
    const SurfaceSample sample = look_at(triangle);
    const double wanted = sample_spacing * rules_.size_at(sample);
    if (length <= wanted || depth == most_halvings) {
      samples_.push_back(sample);
      return;
    }
    const Corner& a = triangle[longest];
    const Corner& b = triangle[(longest + 1) % 3];
    const Corner& c = triangle[(longest + 2) % 3];
    const Vector2d uv = 0.5 * (a.uv + b.uv);
    const Corner middle{uv, vector_from(surface_.Value(uv.x(), uv.y()))};
    take({a, middle, c}, depth + 1);
    take({middle, b, c}, depth + 1);
  }

 private:
  // Samples stand this close, as a share of the edge length: dense enough to choose points between
  // layers from.
  static constexpr double sample_spacing = 0.7;

  SurfaceSample look_at(const std::array<Corner, 3>& triangle) {
    SurfaceSample sample;
    sample.body = description_.body;
    sample.face = description_.id;
    const Vector2d uv = (triangle[0].uv + triangle[1].uv + triangle[2].uv) / 3.0;
    properties_.SetParameters(uv.x(), uv.y());
    sample.point = vector_from(properties_.Value());
    if (properties_.IsNormalDefined()) {
      sample.inward = vector_from(properties_.Normal());
      if (!reversed_) sample.inward = -sample.inward;
    } else {
      const Vector3d normal =
          (triangle[1].point - triangle[0].point).cross(triangle[2].point - triangle[0].point);
      sample.inward = normal.normalized() * (reversed_ ? 1.0 : -1.0);
    }
    if (description_.kind != SurfaceKind::plane && properties_.IsCurvatureDefined()) {
      const double bend =
          std::max(std::abs(properties_.MaxCurvature()), std::abs(properties_.MinCurvature()));
      if (std::isfinite(bend) && bend > 0.0) sample.bend_radius = 1.0 / bend;
    }
    measure_wall(sample);
    return sample;
  }

  void measure_wall(SurfaceSample& sample) const {
    const auto exit = rays_.first_exit(sample.point, sample.inward);
    if (!exit || exit->outward.dot(sample.inward) < least_wall_cosine) return;
    sample.wall = exit->distance;
    sample.clearance = rays_.distance(sample.middle_of_wall(), 0.5 * sample.wall);
  }

  BRepAdaptor_Surface surface_;
  const CadFace& description_;
  const SurfaceRays& rays_;
  const SizeRules& rules_;
  std::vector<SurfaceSample>& samples_;
  bool reversed_;
  BRepLProp_SLProps properties_;
};

void sample_face(const TopoDS_Face& face, FaceSampler& sampler) {
  TopLoc_Location place;
  const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(face, place);
  if (mesh.IsNull() || !mesh->HasUVNodes()) return;
  const auto corner = [&](int node) {
    const gp_Pnt2d uv = mesh->UVNode(node);
    return Corner{{uv.X(), uv.Y()}, vector_from(mesh->Node(node).Transformed(place))};
  };
  for (int i = 1; i <= mesh->NbTriangles(); ++i) {
    int a = 0, b = 0, c = 0;
    mesh->Triangle(i).Get(a, b, c);
    sampler.take({corner(a), corner(b), corner(c)});
  }
}

}  // namespace

std::vector<SurfaceSample> sample_surface(const ReadStep& step,
                                          const std::vector<SurfaceRays>& rays,
                                          const SizeRules& rules) {
  const BRepMesh_IncrementalMesh triangulation(step.shape, 1e-3 * step.geometry.box.diagonal(),
                                               false, 0.5, false);
  TopTools_IndexedMapOfShape faces;
  for (TopExp_Explorer solid(step.shape, TopAbs_SOLID); solid.More(); solid.Next())
    TopExp::MapShapes(solid.Current(), TopAbs_FACE, faces);
  std::vector<SurfaceSample> samples;
  for (const CadFace& description : step.geometry.faces) {
    if (!step.geometry.body(description.body).modelled) continue;
    const TopoDS_Face face = TopoDS::Face(faces(number(description.id)));
    FaceSampler sampler(face, description, rays[index(description.body)], rules, samples);
    sample_face(face, sampler);
  }
  BRepTools::Clean(step.shape);
  return samples;
}

}  // namespace crossgrain
