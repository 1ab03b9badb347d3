// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/shape_mesher.h"

#include <cmath>
#include <limits>

#include "mesh/step/conformal_shape.h"
#include "mesh/step/stages.h"
#include "mesh/tetrahedra/gmsh_session.h"
#include "mesh/tetrahedra/mesh_checks.h"
#include "mesh/tetrahedra/mesh_extraction.h"
#include "mesh/tetrahedra/mesh_file.h"
#include "mesh/tetrahedra/mesh_walls.h"
#include "mesh/tetrahedra/straightening.h"
#include "mesh/tetrahedra/wall_layers.h"

namespace crossgrain {
namespace {

double modelled_volume(const Geometry& geometry) {
  double volume = 0.0;
  for (const Body& body : geometry.bodies)
    if (body.modelled) volume += body.volume;
  return volume;
}

void check_elements(TetrahedronMesh& mesh, MeshReport& report) {
  report.curved_elements_straightened = straighten_tangled(mesh);
  report.volume_mm3 = 0.0;
  report.min_scaled_jacobian = std::numeric_limits<double>::infinity();
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e) {
    const JacobianBounds bounds = jacobian_bounds(mesh, e);
    report.volume_mm3 += bounds.mean / 6.0;
    const double scaled = scaled_jacobian(mesh, e, bounds);
    if (scaled >= report.min_scaled_jacobian || std::isnan(report.min_scaled_jacobian)) continue;
    report.min_scaled_jacobian = scaled;
    report.flattest_at.setZero();
    for (int i = 0; i < 4; ++i) report.flattest_at += 0.25 * mesh.nodes.col(mesh.tetrahedra(i, e));
  }
}

}  // namespace

MeshedGeometry mesh_shape(const ReadStep& step, const MeshOptions& options, const Remedy& remedy) {
  announce_stage("preparing the shape", -1.0);
  const ConformalShape shape = make_conformal(step);
  GmshSession gmsh(options, remedy);
  MeshedGeometry meshed;
  MeshReport& report = meshed.report;
  ExtractedMesh curved;
  if (options.mesh_file) {
    announce_stage("reading the mesh", -1.0);
    curved.mesh = read_mesh_file(*options.mesh_file, shape, step.geometry);
    report_layers(cross_walls(curved.mesh), options.layers, report);
  } else {
    gmsh.load(shape);
    mesh_walls(gmsh, step, shape, options, remedy, report);
    gmsh.raise_order();
    announce_stage("checking the elements", -1.0);
    curved = extract_mesh(shape, 2);
  }
  check_elements(curved.mesh, report);
  if (options.write_msh && !options.mesh_file) write_mesh_file(curved, *options.write_msh);
  meshed.mesh = std::move(curved.mesh);
  report.cad_volume_mm3 = modelled_volume(step.geometry);
  announce_stage("handing over the mesh", -1.0);
  return meshed;
}

}  // namespace crossgrain
