// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/shape_mesher.h"

#include <gmsh.h>

#include <chrono>
#include <limits>

#include "mesh/conformal_shape.h"
#include "mesh/gmsh_session.h"
#include "mesh/mesh_checks.h"
#include "mesh/mesh_extraction.h"
#include "mesh/straightening.h"
#include "mesh/worker_process.h"

namespace crossgrain {
namespace {

double modelled_volume(const Geometry& geometry) {
  double volume = 0.0;
  for (const Body& body : geometry.bodies)
    if (body.modelled) volume += body.volume;
  return volume;
}

}  // namespace

MeshedGeometry mesh_shape(const ReadStep& step, const MeshOptions& options, const Remedy& remedy) {
  announce_stage("preparing the shape", -1.0);
  const ConformalShape shape = make_conformal(step);
  GmshSession gmsh(options, remedy);
  gmsh.load(shape);

  const double size = options.size.value_or(step.geometry.box.diagonal() / 15.0) *
                      remedy.size_factor / options.refinement;
  gmsh::option::setNumber("Mesh.MeshSizeMax", size);
  gmsh::option::setNumber("Mesh.MeshSizeFromCurvature", options.elements_per_turn);
  MeshedGeometry meshed;
  announce_stage("meshing the surfaces", -1.0);
  gmsh.mesh_surfaces();
  announce_stage("meshing the volumes", -1.0);
  gmsh.mesh_volumes();
  announce_stage("curving the elements", -1.0);
  gmsh.raise_order();
  announce_stage("checking the elements", -1.0);
  meshed.mesh = extract_mesh(shape);
  meshed.report.curved_elements_straightened = straighten_tangled(meshed.mesh);
  meshed.report.volume_mm3 = mesh_volume(meshed.mesh);
  meshed.report.cad_volume_mm3 = modelled_volume(step.geometry);
  meshed.report.min_scaled_jacobian = std::numeric_limits<double>::infinity();
  for (Eigen::Index e = 0; e < meshed.mesh.tetrahedron_count(); ++e)
    meshed.report.min_scaled_jacobian =
        std::min(meshed.report.min_scaled_jacobian,
                 scaled_jacobian(meshed.mesh, e, jacobian_bounds(meshed.mesh, e)));
  return meshed;
}

}  // namespace crossgrain
