// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/bench/bench_part.h"

#include <limits>

#include "materials/card_file/card.h"
#include "materials/conditions/material.h"
#include "mesh/meshing.h"
#include "solver/loads/loads.h"
#include "tools/bench/seconds.h"

namespace crossgrain::bench {
namespace {

const std::filesystem::path source = CROSSGRAIN_SOURCE_DIR;
constexpr double working_pressure = 0.4;

std::vector<FaceId> bore(const Geometry& geometry) {
  std::vector<FaceId> faces;
  for (const auto& face : geometry.faces)
    if (face.hollow && face.kind == SurfaceKind::cylinder && face.radius > 20.0)
      faces.push_back(face.id);
  return faces;
}

std::vector<FaceId> lower_end(const Geometry& geometry) {
  double lowest = std::numeric_limits<double>::infinity();
  for (const auto& face : geometry.faces)
    if (face.kind == SurfaceKind::plane) lowest = std::min(lowest, face.centroid.z());
  std::vector<FaceId> faces;
  for (const auto& face : geometry.faces)
    if (face.kind == SurfaceKind::plane && face.centroid.z() < lowest + 1e-6)
      faces.push_back(face.id);
  return faces;
}

}  // namespace

Part meshed_part(double refinement) {
  StepSource import;
  import.step_file = source / "cases/examples/filter-housing/filter-housing.step";
  import.bodies = {"bowl"};
  MeshOptions options;
  options.refinement = refinement;
  options.unknowns_max = 10'000'000;  // the refinement alone decides
  options.time_limit = std::chrono::hours(1);
  const double start = seconds();
  const MeshedGeometry meshed = mesh_step(import, options);
  Part part;
  part.seconds_meshing = seconds() - start;
  part.mesh = meshed.mesh;
  part.bodies = meshed.geometry.bodies.size();
  part.held = constraints_of(part.mesh, {{"foot", lower_end(meshed.geometry), Hold::all}});
  part.pressure = pressure_load(part.mesh, bore(meshed.geometry),
                                [](const Eigen::Vector3d&) { return working_pressure; });
  return part;
}

MaterialField Part::printed_along(const Eigen::Vector3d& build) const {
  const auto card = find_card("pa_cf", source);
  const SolidMaterial material = material_at(card, {}).nominal;
  return uniform_field(mesh, std::vector<SolidMaterial>(bodies, material),
                       std::vector<Frame>(bodies, frame_along(build)));
}

}  // namespace crossgrain::bench
