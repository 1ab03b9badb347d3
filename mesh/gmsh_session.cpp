// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/gmsh_session.h"

#include <gmsh.h>

#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <TopExp.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <cmath>

#include "mesh/meshing_failure.h"

namespace crossgrain {
namespace {

/// Gmsh throws plain strings.
template <class Call>
void in_gmsh(const std::string& what, const Call& call) {
  try {
    call();
  } catch (const std::string& message) {
    throw MeshingFailure(what + " failed: " + message);
  }
}

}  // namespace

GmshSession::GmshSession(const MeshOptions& options, const Remedy& remedy) {
  gmsh::initialize();
  const auto set = [](const char* name, double value) { gmsh::option::setNumber(name, value); };
  set("General.Terminal", 1);    // the parent reads along
  set("General.NumThreads", 1);  // with more, one run in ten crashes
  set("Mesh.Algorithm", remedy.mesh_adapt ? 1 : 6);
  set("Mesh.Algorithm3D", options.deterministic ? 1 : 10);
  set("Mesh.MeshSizeExtendFromBoundary", 0);
  set("Mesh.MeshSizeFromPoints", 0);
  set("Mesh.MeshSizeFromCurvature", 0);
  set("Mesh.MshFileVersion", 4.1);
}

GmshSession::~GmshSession() { gmsh::finalize(); }

void GmshSession::load(const ConformalShape& shape) {
  gmsh::vectorpair volumes, faces;
  in_gmsh("handing the shape to the mesher", [&] {
    gmsh::model::occ::importShapesNativePointer(&shape.shape, volumes, true);
    gmsh::model::occ::synchronize();
    gmsh::model::getEntities(volumes, 3);
    gmsh::model::getEntities(faces, 2);
  });
  TopTools_IndexedMapOfShape expected;
  TopExp::MapShapes(shape.shape, TopAbs_FACE, expected);
  if (volumes.size() != shape.body_of_volume.size() ||
      faces.size() != static_cast<std::size_t>(expected.Extent()))
    throw MeshingFailure("the mesher sees other bodies or faces than the file holds");
  for (const auto& [dimension, tag] : faces) {
    GProp_GProps properties;
    BRepGProp::SurfaceProperties(expected(tag), properties, 1e-3);
    double area = 0.0;
    gmsh::model::occ::getMass(2, tag, area);
    if (!(std::abs(area - properties.Mass()) <= 1e-2 * area))
      throw MeshingFailure("the mesher numbers face " + std::to_string(tag) + " otherwise");
  }
}

void GmshSession::mesh_surfaces() {
  in_gmsh("meshing the surfaces", [] { gmsh::model::mesh::generate(2); });
}

void GmshSession::mesh_volumes() {
  in_gmsh("meshing the volumes", [] { gmsh::model::mesh::generate(3); });
}

void GmshSession::raise_order() {
  in_gmsh("curving the elements", [] { gmsh::model::mesh::setOrder(2); });
}

void GmshSession::untangle() {
  try {
    gmsh::model::mesh::optimize("HighOrder");
  } catch (const std::string&) {
    // It leaves the mesh usable; what is still tangled is straightened by us.
  }
}

void GmshSession::write(const std::filesystem::path& file) {
  in_gmsh("writing " + file.string(), [&] { gmsh::write(file.string()); });
}

}  // namespace crossgrain
