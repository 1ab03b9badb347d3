// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/shape_numbering.h"

#include <BRepClass3d.hxx>
#include <BRepTools.hxx>
#include <BRepTools_WireExplorer.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Iterator.hxx>
#include <TopoDS_Shell.hxx>
#include <TopoDS_Vertex.hxx>
#include <TopoDS_Wire.hxx>
#include <algorithm>

namespace crossgrain {
namespace {

std::vector<LoopEdge> loop_of(const TopoDS_Wire& wire, const TopoDS_Face& forward_face,
                              const ShapeNumbering& numbers) {
  std::vector<LoopEdge> in_order, as_stored;
  const auto add = [&](std::vector<LoopEdge>& loop, const TopoDS_Shape& edge) {
    if (edge.Orientation() == TopAbs_FORWARD || edge.Orientation() == TopAbs_REVERSED) {
      loop.push_back({EdgeId{numbers.edges.FindIndex(edge)}, edge.Orientation() == TopAbs_FORWARD});
    }
  };
  for (BRepTools_WireExplorer edge(wire, forward_face); edge.More(); edge.Next()) {
    add(in_order, edge.Current());
  }
  for (TopoDS_Iterator edge(wire); edge.More(); edge.Next()) {
    add(as_stored, edge.Value());
  }
  // The explorer stops at a gap.
  return in_order.size() == as_stored.size() ? in_order : as_stored;
}

}  // namespace

ShapeNumbering number_shapes(const std::vector<LabelledSolid>& solids) {
  ShapeNumbering numbers;
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

std::vector<std::vector<LoopEdge>> loops_of(const TopoDS_Face& face,
                                            const ShapeNumbering& numbers) {
  // The kernel's loops lie with the face on their left for the face taken forward.
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

std::vector<std::vector<FaceId>> shells_of(const TopoDS_Solid& solid,
                                           const ShapeNumbering& numbers) {
  const TopoDS_Shell outer = BRepClass3d::OuterShell(solid);
  std::vector<std::vector<FaceId>> shells;
  for (TopExp_Explorer shell(solid, TopAbs_SHELL); shell.More(); shell.Next()) {
    std::vector<FaceId> faces;
    for (TopExp_Explorer face(shell.Current(), TopAbs_FACE); face.More(); face.Next()) {
      const FaceId met{numbers.faces.FindIndex(face.Current())};
      if (std::find(faces.begin(), faces.end(), met) == faces.end()) {
        faces.push_back(met);
      }
    }
    const bool first = shell.Current().IsSame(outer);
    shells.insert(first ? shells.begin() : shells.end(), std::move(faces));
  }
  return shells;
}

}  // namespace crossgrain
