// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/face_sampler.h"

#include <BRep_Tool.hxx>
#include <Eigen/Geometry>
#include <Poly_Triangulation.hxx>
#include <algorithm>
#include <cmath>

#include "mesh/geometry/kernel_vectors.h"
#include "mesh/geometry/wall_angle.h"

namespace crossgrain {

using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

// A patch is halved at most this often: a guard against surfaces without measure.
constexpr int most_halvings = 24;

}  // namespace

FaceSampler::FaceSampler(const TopoDS_Face& face, const CadFace& description,
                         const SurfaceRays& rays, const SizeRules& rules, double spacing,
                         std::size_t most, std::vector<SurfaceSample>& samples)
    : face_(face),
      surface_(face),
      description_(description),
      rays_(rays),
      rules_(rules),
      spacing_(spacing),
      most_(most),
      samples_(samples),
      reversed_(face.Orientation() == TopAbs_REVERSED),
      properties_(surface_, 2, 1e-9) {}

void FaceSampler::take_face() {
  TopLoc_Location place;
  const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(face_, place);
  if (mesh.IsNull() || !mesh->HasUVNodes()) return;
  const auto corner = [&](int node) {
    const gp_Pnt2d uv = mesh->UVNode(node);
    return Corner{{uv.X(), uv.Y()}, vector_from(mesh->Node(node).Transformed(place))};
  };
  for (int i = 1; i <= mesh->NbTriangles(); ++i) {
    int a = 0, b = 0, c = 0;
    mesh->Triangle(i).Get(a, b, c);
    take({corner(a), corner(b), corner(c)}, rules_.greatest / rules_.refinement, 0);
  }
}

void FaceSampler::take(const Patch& patch, double wanted, int depth) {
  std::size_t longest = 0;
  double length = 0.0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double edge = (patch[(i + 1) % 3].point - patch[i].point).norm();
    if (edge > length) {
      length = edge;
      longest = i;
    }
  }
  if (!(length > 0.0) || samples_.size() >= most_) return;
  const double here = rules_.size_at(sample_of(patch, wanted));
  if (length <= spacing_ * here || depth == most_halvings) return;
  const Corner& a = patch[longest];
  const Corner& b = patch[(longest + 1) % 3];
  const Corner& c = patch[(longest + 2) % 3];
  const Vector2d uv = 0.5 * (a.uv + b.uv);
  const Corner middle{uv, vector_from(surface_.Value(uv.x(), uv.y()))};
  take({a, middle, c}, here, depth + 1);
  take({middle, b, c}, here, depth + 1);
}

const SurfaceSample& FaceSampler::sample_of(const Patch& patch, double wanted) {
  // One sample a cell, in a grid for every size: the kernel's triangles are often long and thin,
  // and many then lie within one edge length of each other.
  const int level = static_cast<int>(std::floor(2.0 * std::log2(0.5 * spacing_ * wanted)));
  const double cell = std::exp2(0.5 * level);
  const Vector3d middle = (patch[0].point + patch[1].point + patch[2].point) / 3.0;
  const Eigen::Vector3i at = (middle / cell).array().floor().cast<int>();
  const auto [found, fresh] =
      sample_in_cell_.try_emplace({level, at.x(), at.y(), at.z()}, samples_.size());
  if (fresh) samples_.push_back(look_at(patch));
  return samples_[found->second];
}

SurfaceSample FaceSampler::look_at(const Patch& patch) {
  SurfaceSample sample;
  sample.body = description_.body;
  sample.face = description_.id;
  const Vector2d uv = (patch[0].uv + patch[1].uv + patch[2].uv) / 3.0;
  properties_.SetParameters(uv.x(), uv.y());
  sample.point = vector_from(properties_.Value());
  if (properties_.IsNormalDefined()) {
    sample.inward = vector_from(properties_.Normal());
    if (!reversed_) sample.inward = -sample.inward;
  } else {
    const Vector3d normal =
        (patch[1].point - patch[0].point).cross(patch[2].point - patch[0].point);
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

void FaceSampler::measure_wall(SurfaceSample& sample) const {
  const auto exit = rays_.first_exit(sample.point, sample.inward, rules_.thickest_that_counts());
  if (!exit || exit->outward.dot(sample.inward) < least_wall_cosine) return;
  sample.wall = exit->distance;
  // Where it is so, the middle of the wall is nearer to the rim than to the wall's two faces.
  const double clear = 0.4 * sample.wall;
  sample.beside_rim = rays_.distance(sample.middle_of_wall(), clear) < clear;
}

}  // namespace crossgrain
