// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/conformal_shape.h"

#include <BRepAlgoAPI_BuilderAlgo.hxx>
#include <BRep_Builder.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS_Compound.hxx>
#include <algorithm>
#include <stdexcept>

namespace crossgrain {
namespace {

struct Solid {
  BodyId body;
  TopoDS_Shape shape;
};

std::vector<Solid> modelled_solids(const ReadStep& step) {
  std::vector<Solid> solids;
  int number = 0;
  for (TopExp_Explorer solid(step.shape, TopAbs_SOLID); solid.More(); solid.Next()) {
    const BodyId body{++number};
    if (step.geometry.body(body).modelled) solids.push_back({body, solid.Current()});
  }
  return solids;
}

/// Whether any two bodies come near enough to touch.
bool any_near(const std::vector<Solid>& solids, const Geometry& geometry) {
  const double reach = 1e-6 * geometry.box.diagonal();
  for (std::size_t i = 0; i < solids.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const Box& a = geometry.body(solids[i].body).box;
      const Box& b = geometry.body(solids[j].body).box;
      if (((a.low - b.high).array() < reach).all() && ((b.low - a.high).array() < reach).all())
        return true;
    }
  }
  return false;
}

/// The faces of each solid with their ids, which count every face of the file on first meeting.
std::vector<std::pair<TopoDS_Shape, FaceOwner>> owned_faces(const ReadStep& step,
                                                            const std::vector<Solid>& solids) {
  TopTools_IndexedMapOfShape numbers;
  for (TopExp_Explorer solid(step.shape, TopAbs_SOLID); solid.More(); solid.Next())
    TopExp::MapShapes(solid.Current(), TopAbs_FACE, numbers);
  std::vector<std::pair<TopoDS_Shape, FaceOwner>> faces;
  for (const Solid& solid : solids) {
    TopTools_IndexedMapOfShape own;
    TopExp::MapShapes(solid.shape, TopAbs_FACE, own);
    for (int i = 1; i <= own.Extent(); ++i)
      faces.push_back({own(i), {solid.body, FaceId{numbers.FindIndex(own(i))}}});
  }
  return faces;
}

/// What became of shapes when the bodies were glued.
struct Gluing {
  explicit Gluing(const std::vector<Solid>& solids) {
    TopTools_ListOfShape all;
    for (const Solid& solid : solids) all.Append(solid.shape);
    builder.SetArguments(all);
    builder.SetRunParallel(false);
    builder.SetNonDestructive(true);
    builder.Build();
    if (builder.HasErrors())
      throw std::invalid_argument(
          "bodies that touch could not be glued together; check in CAD that they meet on common "
          "faces without overlap, or model fewer of them");
  }
  std::vector<TopoDS_Shape> images(const TopoDS_Shape& shape) {
    std::vector<TopoDS_Shape> result;
    for (const TopoDS_Shape& image : builder.Modified(shape)) result.push_back(image);
    if (result.empty() && !builder.IsDeleted(shape)) result.push_back(shape);
    return result;
  }
  BRepAlgoAPI_BuilderAlgo builder;
};

TopoDS_Shape compound_of(const std::vector<Solid>& solids) {
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  for (const Solid& solid : solids) builder.Add(compound, solid.shape);
  return compound;
}

[[noreturn]] void throw_overlap(BodyId a, BodyId b) {
  throw std::invalid_argument("bodies " + std::to_string(number(a)) + " and " +
                              std::to_string(number(b)) +
                              " overlap: the same space would count twice; cut one from the other "
                              "in CAD, or model only one of them");
}

/// The pieces of the glued bodies. A piece that two bodies claim lies in both.
std::vector<Solid> glued_solids(const std::vector<Solid>& solids, Gluing& gluing) {
  TopTools_IndexedMapOfShape seen;
  std::vector<Solid> pieces;
  for (const Solid& solid : solids) {
    for (const TopoDS_Shape& piece : gluing.images(solid.shape)) {
      const int before = seen.FindIndex(piece);
      if (before > 0) throw_overlap(pieces[static_cast<std::size_t>(before - 1)].body, solid.body);
      seen.Add(piece);
      pieces.push_back({solid.body, piece});
    }
  }
  return pieces;
}

}  // namespace

ConformalShape make_conformal(const ReadStep& step) {
  std::vector<Solid> solids = modelled_solids(step);
  auto faces = owned_faces(step, solids);
  if (any_near(solids, step.geometry)) {
    Gluing gluing(solids);
    std::vector<std::pair<TopoDS_Shape, FaceOwner>> pieces;
    for (const auto& [face, owner] : faces)
      for (const TopoDS_Shape& image : gluing.images(face)) pieces.push_back({image, owner});
    faces = std::move(pieces);
    solids = glued_solids(solids, gluing);
  }

  ConformalShape result;
  result.shape = compound_of(solids);
  TopTools_IndexedMapOfShape numbers;
  for (const Solid& solid : solids) {
    result.body_of_volume.push_back(solid.body);
    TopExp::MapShapes(solid.shape, TopAbs_FACE, numbers);
  }
  result.owners_of_face.resize(static_cast<std::size_t>(numbers.Extent()));
  for (const auto& [face, owner] : faces) {
    const int place = numbers.FindIndex(face);
    if (place > 0) result.owners_of_face[static_cast<std::size_t>(place - 1)].push_back(owner);
  }
  return result;
}

}  // namespace crossgrain
