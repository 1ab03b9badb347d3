// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/step_reader.h"

#include <BRep_Builder.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <algorithm>

#include "mesh/geometry/edge_description.h"
#include "mesh/geometry/face_description.h"
#include "mesh/geometry/face_integrals.h"
#include "mesh/geometry/geometry_checks.h"
#include "mesh/geometry/geometry_words.h"
#include "mesh/geometry/surface_triangles.h"
#include "mesh/step/apart_bodies.h"
#include "mesh/step/body_names.h"
#include "mesh/step/material_angles.h"
#include "mesh/step/shape_checks.h"
#include "mesh/step/shape_numbering.h"
#include "mesh/step/step_assembly.h"

namespace crossgrain {
namespace {

TopoDS_Compound compound_of(const std::vector<LabelledSolid>& solids) {
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  for (const LabelledSolid& body : solids) {
    builder.Add(compound, body.solid);
  }
  return compound;
}

/// Stokes: the integral of the normal over a face is its boundary's swept area, so that the vector
/// areas of a closed surface cancel to the last digit.
Eigen::Vector3d vector_area_of(const std::vector<std::vector<LoopEdge>>& loops,
                               const std::vector<CadEdge>& edges) {
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  for (const auto& loop : loops) {
    for (const LoopEdge& side : loop) {
      sum += (side.forward ? 1.0 : -1.0) * edges[index(side.edge)].swept_area;
    }
  }
  return sum;
}

void add_edges(Geometry& geometry, const ShapeNumbering& numbers) {
  for (int i = 1; i <= numbers.edges.Extent(); ++i) {
    geometry.edges.push_back(describe_edge(TopoDS::Edge(numbers.edges(i))));
    geometry.edges.back().id = EdgeId{i};
  }
}

void add_face(Geometry& geometry, FaceId id, BodyId body, const Label& label,
              const ShapeNumbering& numbers) {
  const TopoDS_Face shape = TopoDS::Face(numbers.faces(number(id)));
  CadFace face = describe_face(shape);
  face.id = id;
  face.body = body;
  face.name = label.name;
  face.colour = label.colour;
  face.loops = loops_of(shape, numbers);
  face.vector_area = vector_area_of(face.loops, geometry.edges);
  for (const auto& loop : face.loops) {
    for (const LoopEdge& side : loop) {
      geometry.edges[index(side.edge)].faces.push_back(id);
    }
  }
  geometry.faces.push_back(std::move(face));
}

/// Areas, volumes and centroids of the body and its faces.
void integrate_body(Geometry& geometry, Body& body, const ShapeNumbering& numbers) {
  // Taken about the body's middle, lest a part far from the origin lose digits.
  const Eigen::Vector3d middle = 0.5 * (body.box.low + body.box.high);
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();
  double volume = 0.0;
  std::vector<FaceId> off_their_edges;
  for (const FaceId id : body.faces) {
    CadFace& face = geometry.faces[index(id)];
    const FaceIntegrals integrals = integrate_over(TopoDS::Face(numbers.faces(number(id))), middle);
    face.area = integrals.area;
    face.centroid = middle + integrals.moment / integrals.area;
    face.cone_volume = integrals.cone_volume + middle.dot(face.vector_area) / 3.0;
    if (!((integrals.vector_area - face.vector_area).norm() < 1e-2 * face.area)) {
      off_their_edges.push_back(id);
    }
    body.area += integrals.area;
    volume += integrals.cone_volume;
    moment += integrals.cone_moment;
  }
  body.volume = volume;
  body.centroid = middle + moment / volume;
  if (!off_their_edges.empty()) {
    geometry.warnings.push_back(words(off_their_edges) +
                                " at odds with the edges by more than 1 % of the area; mend in "
                                "CAD, or export with a finer tolerance");
  }
}

void add_body(Geometry& geometry, const LabelledSolid& labelled, std::size_t file,
              const ShapeNumbering& numbers) {
  Body body{};
  body.id = BodyId{static_cast<int>(geometry.bodies.size()) + 1};
  body.name = body.name_in_file = labelled.label.name;
  body.file = file;
  body.colour = labelled.label.colour;
  body.box = empty_box();
  body.shells = shells_of(labelled.solid, numbers);
  for (const auto& shell : body.shells) {
    body.faces.insert(body.faces.end(), shell.begin(), shell.end());
  }
  std::sort(body.faces.begin(), body.faces.end());
  for (std::size_t i = 0; i < body.faces.size(); ++i) {
    add_face(geometry, body.faces[i], body.id, labelled.faces[i], numbers);
    extend(body.box, geometry.faces.back().box);
  }
  integrate_body(geometry, body, numbers);
  extend(geometry.box, body.box);
  geometry.bodies.push_back(std::move(body));
}

void add_triangles(Geometry& geometry, const TopoDS_Shape& shape, const ShapeNumbering& numbers) {
  std::vector<FaceId> failed;
  geometry.surface = triangulate(shape, numbers.faces, geometry.box.diagonal(), failed);
  if (!failed.empty()) {
    geometry.warnings.push_back(words(failed) +
                                " too damaged for a triangle; meshing may fail there, and no ray "
                                "sees it: mend in CAD");
  }
}

void check(Geometry& geometry, const std::vector<LabelledSolid>& solids,
           const ShapeNumbering& numbers, const std::vector<KeptApart>& apart) {
  require_closed_bodies(geometry);
  require_apart(apart, solids, geometry);
  for (auto&& warnings :
       {geometry_warnings(geometry), shape_warnings(solids, numbers.faces, geometry, apart)}) {
    geometry.warnings.insert(geometry.warnings.end(), warnings.begin(), warnings.end());
  }
}

}  // namespace

ReadStep read_step(const ImportOptions& options) {
  ReadStep result;
  Geometry& geometry = result.geometry;
  geometry.box = empty_box();
  result.apart = options.apart;

  StepAssembly assembly = read_assembly(options.files);
  geometry.files = std::move(assembly.files);
  geometry.warnings = std::move(assembly.warnings);
  result.shape = compound_of(assembly.solids);

  const ShapeNumbering numbers = number_shapes(assembly.solids);
  add_edges(geometry, numbers);
  for (std::size_t i = 0; i < assembly.solids.size(); ++i) {
    add_body(geometry, assembly.solids[i], assembly.file_of_solid[i], numbers);
  }
  measure_material_angles(geometry, numbers);
  for (std::size_t i = 0; i < options.files.size(); ++i) {
    choose_modelled(geometry, i, options.files[i].bodies);
  }
  tell_names_apart(geometry);

  check(geometry, assembly.solids, numbers, options.apart);
  add_triangles(geometry, result.shape, numbers);
  return result;
}

}  // namespace crossgrain
