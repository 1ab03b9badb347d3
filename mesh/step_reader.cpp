// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step_reader.h"

#include <BRepClass3d.hxx>
#include <BRepGProp.hxx>
#include <BRepTools.hxx>
#include <BRepTools_WireExplorer.hxx>
#include <BRep_Builder.hxx>
#include <GProp_GProps.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <TopoDS_Iterator.hxx>
#include <TopoDS_Vertex.hxx>
#include <algorithm>
#include <stdexcept>

#include "mesh/edge_description.h"
#include "mesh/face_description.h"
#include "mesh/kernel_vectors.h"
#include "mesh/step_document.h"
#include "mesh/surface_triangles.h"

namespace crossgrain {
namespace {

/// Faces and edges in the order in which they are first met; a position counts from 1 and is the
/// id.
struct Numbering {
  TopTools_IndexedMapOfShape faces;
  TopTools_IndexedMapOfShape edges;
};

Numbering number(const std::vector<LabelledSolid>& solids) {
  Numbering numbers;
  for (const LabelledSolid& body : solids) {
    for (TopExp_Explorer face(body.solid, TopAbs_FACE); face.More(); face.Next()) {
      numbers.faces.Add(face.Current());
      for (TopExp_Explorer edge(face.Current(), TopAbs_EDGE); edge.More(); edge.Next()) {
        numbers.edges.Add(edge.Current());
      }
    }
  }
  return numbers;
}

TopoDS_Compound compound_of(const std::vector<LabelledSolid>& solids) {
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  for (const LabelledSolid& body : solids) {
    builder.Add(compound, body.solid);
  }
  return compound;
}

std::vector<LoopEdge> loop_of(const TopoDS_Wire& wire, const TopoDS_Face& forward_face,
                              const Numbering& numbers) {
  std::vector<LoopEdge> loop;
  const auto add = [&](const TopoDS_Shape& edge) {
    if (edge.Orientation() == TopAbs_FORWARD || edge.Orientation() == TopAbs_REVERSED) {
      loop.push_back({EdgeId{numbers.edges.FindIndex(edge)}, edge.Orientation() == TopAbs_FORWARD});
    }
  };
  for (BRepTools_WireExplorer edge(wire, forward_face); edge.More(); edge.Next()) {
    add(edge.Current());
  }
  std::size_t count = 0;
  for (TopoDS_Iterator edge(wire); edge.More(); edge.Next()) {
    ++count;
  }
  if (loop.size() != count) {  // the explorer stops at a gap: take them unordered
    loop.clear();
    for (TopoDS_Iterator edge(wire); edge.More(); edge.Next()) {
      add(edge.Value());
    }
  }
  return loop;
}

/// The loops with the face on their left; the kernel's lie so for the face taken forward.
std::vector<std::vector<LoopEdge>> loops_of(const TopoDS_Face& face, const Numbering& numbers) {
  const TopoDS_Face forward = TopoDS::Face(face.Oriented(TopAbs_FORWARD));
  const TopoDS_Wire outer = BRepTools::OuterWire(forward);
  std::vector<std::vector<LoopEdge>> loops;
  for (TopoDS_Iterator wire(forward); wire.More(); wire.Next()) {
    if (wire.Value().ShapeType() != TopAbs_WIRE) {
      continue;
    }
    std::vector<LoopEdge> loop = loop_of(TopoDS::Wire(wire.Value()), forward, numbers);
    if (face.Orientation() == TopAbs_REVERSED) {
      std::reverse(loop.begin(), loop.end());
      for (LoopEdge& edge : loop) {
        edge.forward = !edge.forward;
      }
    }
    const bool first = wire.Value().IsSame(outer);
    loops.insert(first ? loops.begin() : loops.end(), std::move(loop));
  }
  return loops;
}

void describe_edges(Geometry& geometry, const Numbering& numbers) {
  for (int i = 1; i <= numbers.edges.Extent(); ++i) {
    geometry.edges.push_back(describe_edge(TopoDS::Edge(numbers.edges(i))));
    geometry.edges.back().id = EdgeId{i};
  }
}

CadFace describe(const TopoDS_Face& shape, int id, BodyId body, const Label& label,
                 const Numbering& numbers, std::vector<CadEdge>& edges) {
  CadFace face = describe_face(shape);
  face.id = FaceId{id};
  face.body = body;
  face.name = label.name;
  face.colour = label.colour;
  face.loops = loops_of(shape, numbers);
  // Stokes: the integral of the normal over a face is its boundary's swept area, so that the vector
  // areas of a closed surface cancel to the last digit.
  for (const auto& loop : face.loops) {
    for (const LoopEdge& side : loop) {
      CadEdge& edge = edges[index(side.edge)];
      edge.faces.push_back(face.id);
      face.vector_area += (side.forward ? 1.0 : -1.0) * edge.swept_area;
    }
  }
  return face;
}

Body describe_body(const LabelledSolid& labelled, BodyId id, const Numbering& numbers) {
  Body body;
  body.id = id;
  body.name = labelled.label.name;
  body.colour = labelled.label.colour;
  GProp_GProps volume, surface;
  BRepGProp::VolumeProperties(labelled.solid, volume);
  BRepGProp::SurfaceProperties(labelled.solid, surface);
  body.volume = volume.Mass();
  body.centroid = vector_from(volume.CentreOfMass());
  body.area = surface.Mass();
  body.box = box_of(labelled.solid);
  const TopoDS_Shell outer = BRepClass3d::OuterShell(labelled.solid);
  for (TopExp_Explorer shell(labelled.solid, TopAbs_SHELL); shell.More(); shell.Next()) {
    std::vector<FaceId> faces;
    for (TopExp_Explorer face(shell.Current(), TopAbs_FACE); face.More(); face.Next()) {
      const FaceId met{numbers.faces.FindIndex(face.Current())};
      if (std::find(faces.begin(), faces.end(), met) == faces.end()) {
        faces.push_back(met);
      }
    }
    body.faces.insert(body.faces.end(), faces.begin(), faces.end());
    const bool first = shell.Current().IsSame(outer);
    body.shells.insert(first ? body.shells.begin() : body.shells.end(), std::move(faces));
  }
  std::sort(body.faces.begin(), body.faces.end());
  return body;
}

void describe_bodies(Geometry& geometry, const std::vector<LabelledSolid>& solids,
                     const Numbering& numbers) {
  for (const LabelledSolid& labelled : solids) {
    const BodyId id{static_cast<int>(geometry.bodies.size()) + 1};
    geometry.bodies.push_back(describe_body(labelled, id, numbers));
    const std::vector<FaceId>& faces = geometry.bodies.back().faces;
    for (std::size_t i = 0; i < faces.size(); ++i) {
      const TopoDS_Face shape = TopoDS::Face(numbers.faces(crossgrain::number(faces[i])));
      geometry.faces.push_back(describe(shape, crossgrain::number(faces[i]), id, labelled.faces[i],
                                        numbers, geometry.edges));
    }
  }
}

}  // namespace

ReadStep read_step(const ImportOptions& options) {
  const StepDocument document = read_step_document(options);
  const std::string file = options.step_file.string();
  if (document.solids.empty()) {
    throw std::invalid_argument(
        file + ": holds no solid body; close its surfaces into a solid in CAD and export it again");
  }
  ReadStep result;
  result.shape = compound_of(document.solids);
  Geometry& geometry = result.geometry;
  geometry.file = file;
  geometry.declared_unit = document.declared_unit;
  geometry.scale = options.scale;
  const Numbering numbers = number(document.solids);
  describe_edges(geometry, numbers);
  describe_bodies(geometry, document.solids, numbers);
  geometry.box = box_of(result.shape);
  std::vector<FaceId> failed;
  geometry.surface = triangulate(result.shape, numbers.faces, geometry.box.diagonal(), failed);
  return result;
}

}  // namespace crossgrain
