// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/surface_samples.h"

#include <BRepMesh_IncrementalMesh.hxx>
#include <BRepTools.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>

#include "mesh/tetrahedra/face_sampler.h"

namespace crossgrain {
namespace {

// Samples stand this close, as a share of the edge length: dense enough to choose points between
// layers from.
constexpr double closest = 0.7;

// More would take longer than meshing; a mesh that can be solved has fewer triangles.
constexpr std::size_t most_samples = 400'000;

std::vector<SurfaceSample> samples_spaced(const ReadStep& step,
                                          const TopTools_IndexedMapOfShape& faces,
                                          const std::vector<SurfaceRays>& rays,
                                          const SizeRules& rules, double spacing) {
  std::vector<SurfaceSample> samples;
  for (const CadFace& description : step.geometry.faces) {
    if (!step.geometry.body(description.body).modelled) continue;
    const TopoDS_Face face = TopoDS::Face(faces(number(description.id)));
    FaceSampler(face, description, rays[index(description.body)], rules, spacing, most_samples,
                samples)
        .take_face();
  }
  return samples;
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
  double spacing = closest;
  std::vector<SurfaceSample> samples = samples_spaced(step, faces, rays, rules, spacing);
  // Where there would be too many, all stand further apart: none of the faces is left out.
  while (samples.size() >= most_samples) {
    spacing *= 2.0;
    samples = samples_spaced(step, faces, rays, rules, spacing);
  }
  BRepTools::Clean(step.shape);
  return samples;
}

}  // namespace crossgrain
