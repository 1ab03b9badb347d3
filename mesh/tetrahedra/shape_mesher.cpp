// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/shape_mesher.h"

#include <limits>

#include "mesh/step/conformal_shape.h"
#include "mesh/step/stages.h"
#include "mesh/tetrahedra/gmsh_session.h"
#include "mesh/tetrahedra/mesh_checks.h"
#include "mesh/tetrahedra/mesh_extraction.h"
#include "mesh/tetrahedra/straightening.h"
#include "mesh/tetrahedra/surface_samples.h"
#include "mesh/tetrahedra/wall_layers.h"

namespace crossgrain {
namespace {

using Eigen::Vector3d;

// Meshing again where a wall holds too few layers, at most this often.
constexpr int most_corrections = 2;

std::vector<SurfaceRays> rays_of_bodies(const Geometry& geometry) {
  std::vector<SurfaceRays> rays;
  for (const Body& body : geometry.bodies) rays.emplace_back(geometry, body.id);
  return rays;
}

/// Mesh with straight edges; where walls hold too few layers, ask for shorter edges and mesh again.
std::vector<WallCrossing> mesh_walls(GmshSession& gmsh, const ReadStep& step,
                                     const ConformalShape& shape, const MeshOptions& options,
                                     const SizeRules& rules, MeshReport& report) {
  announce_stage("measuring the walls", -1.0);
  const std::vector<SurfaceRays> rays = rays_of_bodies(step.geometry);
  const std::vector<SurfaceSample> samples = sample_surface(step, rays, rules);
  std::vector<SizedPoint> points = sized_points(samples, rules);
  for (int correction = 0;; ++correction) {
    const SizeField sizes(points, options.balls, rules.greatest / rules.refinement);
    const auto inside =
        points_between_layers(samples, rules, rays, [&](const Vector3d& x) { return sizes.at(x); });
    gmsh.mesh_straight(sizes, inside);
    const std::vector<WallCrossing> crossings = cross_walls(extract_mesh(shape, 1));
    report_layers(crossings, options.layers, report);
    if (report.layers_min >= options.layers || correction == most_corrections) return crossings;
    for (const WallCrossing& crossing : crossings) {
      if (crossing.layers >= options.layers) continue;
      const Vector3d middle = crossing.position + 0.5 * crossing.wall * crossing.inward;
      points.push_back({middle, std::max(0.7 * sizes.at(middle), rules.least / rules.refinement)});
    }
    report.remedies.push_back("meshed again with shorter edges where walls had too few layers");
  }
}

double modelled_volume(const Geometry& geometry) {
  double volume = 0.0;
  for (const Body& body : geometry.bodies)
    if (body.modelled) volume += body.volume;
  return volume;
}

void check_elements(TetrahedronMesh& mesh, MeshReport& report) {
  announce_stage("checking the elements", -1.0);
  report.curved_elements_straightened = straighten_tangled(mesh);
  report.volume_mm3 = 0.0;
  report.min_scaled_jacobian = std::numeric_limits<double>::infinity();
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e) {
    const JacobianBounds bounds = jacobian_bounds(mesh, e);
    report.volume_mm3 += bounds.mean / 6.0;
    report.min_scaled_jacobian =
        std::min(report.min_scaled_jacobian, scaled_jacobian(mesh, e, bounds));
  }
}

}  // namespace

MeshedGeometry mesh_shape(const ReadStep& step, const MeshOptions& options, const Remedy& remedy) {
  announce_stage("preparing the shape", -1.0);
  const ConformalShape shape = make_conformal(step);
  GmshSession gmsh(options, remedy);
  gmsh.load(shape);

  MeshedGeometry meshed;
  MeshReport& report = meshed.report;
  const SizeRules rules = size_rules(options, remedy, step.geometry.box.diagonal());
  mesh_walls(gmsh, step, shape, options, rules, report);

  announce_stage("curving the elements", -1.0);
  gmsh.raise_order();
  meshed.mesh = extract_mesh(shape, 2);
  check_elements(meshed.mesh, report);
  report.cad_volume_mm3 = modelled_volume(step.geometry);
  report.seconds_gmsh = gmsh.seconds();
  return meshed;
}

}  // namespace crossgrain
