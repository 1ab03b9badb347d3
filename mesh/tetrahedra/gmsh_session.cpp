// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/gmsh_session.h"

#include <gmsh.h>

#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <TopExp.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <algorithm>
#include <cmath>

#include "mesh/geometry/kernel_vectors.h"
#include "mesh/step/stages.h"
#include "mesh/tetrahedra/meshing_failure.h"

namespace crossgrain {

namespace {

/// A stage that is Gmsh's work, which throws plain strings.
template <class Call>
void run(const std::string& stage, const Call& call) {
  announce_stage(stage, -1.0);
  try {
    call();
  } catch (const std::string& message) {
    throw MeshingFailure(stage + " failed: " + message);
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
}

GmshSession::~GmshSession() { gmsh::finalize(); }

void GmshSession::load(const ConformalShape& shape) {
  body_of_volume_ = shape.body_of_volume;
  gmsh::vectorpair volumes, faces;
  run("handing the shape to Gmsh", [&] {
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
    // Integrated as Gmsh does it, so that sound numbering gives equal digits: the kernel's adaptive
    // integral is off by more than a hundredth on faces bounded or spanned by spline arcs.
    GProp_GProps properties;
    BRepGProp::SurfaceProperties(expected(tag), properties);
    const Eigen::Vector3d centroid = vector_from(properties.CentreOfMass());
    double area = 0.0;
    Eigen::Vector3d seen;
    gmsh::model::occ::getMass(2, tag, area);
    gmsh::model::occ::getCenterOfMass(2, tag, seen.x(), seen.y(), seen.z());
    if (!(std::abs(area - properties.Mass()) <= 1e-6 * area &&
          (seen - centroid).norm() <= 1e-6 * (centroid.norm() + std::sqrt(area))))
      throw MeshingFailure("the mesher numbers face " + std::to_string(tag) + " otherwise");
  }
}

void GmshSession::mesh_straight(const SizeField& sizes, const std::vector<InnerPoint>& inside) {
  gmsh::model::mesh::clear();
  ask_for(sizes);
  run("meshing the surfaces (Gmsh)", [] { gmsh::model::mesh::generate(2); });
  mesh_volumes(inside);
}

void GmshSession::mesh_volumes_again(const SizeField& sizes,
                                     const std::vector<InnerPoint>& inside) {
  gmsh::vectorpair volumes;
  gmsh::model::getEntities(volumes, 3);
  gmsh::model::mesh::clear(volumes);
  ask_for(sizes);
  mesh_volumes(inside);
}

void GmshSession::ask_for(const SizeField& sizes) {
  gmsh::model::mesh::setSizeCallback([&sizes](int dimension, int, double x, double y, double z) {
    return dimension == 3 ? sizes.inside({x, y, z}) : sizes.on_surface({x, y, z});
  });
}

void GmshSession::mesh_volumes(const std::vector<InnerPoint>& inside) {
  drop_embedded();
  run("meshing the volumes (Gmsh)", [&] {
    embed(inside);
    gmsh::model::mesh::generate(3);
  });
}

void GmshSession::drop_embedded() {
  if (embedded_.empty()) return;
  gmsh::vectorpair volumes;
  gmsh::model::getEntities(volumes, 3);
  gmsh::model::mesh::removeEmbedded(volumes, 0);
  gmsh::model::mesh::clear(embedded_);
  gmsh::model::removeEntities(embedded_);
  embedded_.clear();
}

void GmshSession::embed(const std::vector<InnerPoint>& inside) {
  // Gmsh keeps a point inside a volume only if it is a node and a point element of an entity. All
  // of a volume are of one entity: Gmsh goes through every entity for each new one.
  std::size_t node = 0, element = 0;
  std::vector<std::size_t> tags;
  std::vector<double> coordinates, unused;
  gmsh::model::mesh::getNodes(tags, coordinates, unused, -1, -1, false, false);
  for (const std::size_t tag : tags) node = std::max(node, tag);
  std::vector<int> types;
  std::vector<std::vector<std::size_t>> elements, nodes;
  gmsh::model::mesh::getElements(types, elements, nodes);
  for (const auto& of_type : elements)
    for (const std::size_t tag : of_type) element = std::max(element, tag);

  for (std::size_t volume = 0; volume < body_of_volume_.size(); ++volume) {
    std::vector<std::size_t> new_nodes, new_elements;
    std::vector<double> places;
    for (const InnerPoint& inner : inside) {
      if (inner.body != body_of_volume_[volume]) continue;
      new_nodes.push_back(++node);
      new_elements.push_back(++element);
      places.insert(places.end(), {inner.point.x(), inner.point.y(), inner.point.z()});
    }
    if (new_nodes.empty()) continue;
    const int points = gmsh::model::addDiscreteEntity(0);
    gmsh::model::mesh::addNodes(0, points, new_nodes, places);
    gmsh::model::mesh::addElementsByType(points, 15, new_elements, new_nodes);
    gmsh::model::mesh::embed(0, {points}, 3, static_cast<int>(volume) + 1);
    embedded_.push_back({0, points});
  }
}

void GmshSession::raise_order() {
  run("curving the elements (Gmsh)", [] { gmsh::model::mesh::setOrder(2); });
}

}  // namespace crossgrain
