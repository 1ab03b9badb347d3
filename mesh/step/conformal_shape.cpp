// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/conformal_shape.h"

#include <BRepAlgoAPI_BuilderAlgo.hxx>
#include <BRepGProp.hxx>
#include <BRep_Builder.hxx>
#include <GProp_GProps.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS_Compound.hxx>
#include <algorithm>
#include <stdexcept>

#include "mesh/geometry/geometry_words.h"
#include "mesh/geometry/kernel_vectors.h"
#include "mesh/step/body_overlap.h"
#include "mesh/step/glue_groups.h"

namespace crossgrain {
namespace {

std::vector<BodyShape> modelled_solids(const ReadStep& step) {
  std::vector<BodyShape> solids;
  int number = 0;
  for (TopExp_Explorer solid(step.shape, TopAbs_SOLID); solid.More(); solid.Next()) {
    const BodyId body{++number};
    if (step.geometry.body(body).modelled) solids.push_back({body, solid.Current()});
  }
  return solids;
}

using OwnedFace = std::pair<TopoDS_Shape, FaceOwner>;

/// The faces of each solid with their ids, which count every face of the file on first meeting.
std::vector<OwnedFace> owned_faces(const ReadStep& step, const std::vector<BodyShape>& solids) {
  TopTools_IndexedMapOfShape numbers;
  for (TopExp_Explorer solid(step.shape, TopAbs_SOLID); solid.More(); solid.Next())
    TopExp::MapShapes(solid.Current(), TopAbs_FACE, numbers);
  std::vector<OwnedFace> faces;
  for (const BodyShape& solid : solids) {
    TopTools_IndexedMapOfShape own;
    TopExp::MapShapes(solid.shape, TopAbs_FACE, own);
    for (int i = 1; i <= own.Extent(); ++i)
      faces.push_back({own(i), {solid.body, FaceId{numbers.FindIndex(own(i))}}});
  }
  return faces;
}

/// What became of shapes when the bodies were glued.
struct Gluing {
  explicit Gluing(const std::vector<BodyShape>& solids) {
    TopTools_ListOfShape all;
    for (const BodyShape& solid : solids) all.Append(solid.shape);
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

TopoDS_Shape compound_of(const std::vector<BodyShape>& solids) {
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  for (const BodyShape& solid : solids) builder.Add(compound, solid.shape);
  return compound;
}

[[noreturn]] void throw_overlap(const Geometry& geometry, BodyId a, BodyId b,
                                const TopoDS_Shape& common) {
  GProp_GProps properties;
  BRepGProp::VolumeProperties(common, properties);
  const BodyOverlap overlap{properties.Mass(), vector_from(properties.CentreOfMass()), common};
  throw std::invalid_argument(overlap_words(geometry.body(a), geometry.body(b), overlap) +
                              ": the same space would count twice; cut one from the other "
                              "in CAD, or model only one of them");
}

/// The pieces of the glued bodies. A piece that two bodies claim lies in both.
std::vector<BodyShape> glued_solids(const std::vector<BodyShape>& solids, const Geometry& geometry,
                                    Gluing& gluing) {
  TopTools_IndexedMapOfShape seen;
  std::vector<BodyShape> pieces;
  for (const BodyShape& solid : solids) {
    for (const TopoDS_Shape& piece : gluing.images(solid.shape)) {
      const int before = seen.FindIndex(piece);
      if (before > 0)
        throw_overlap(geometry, pieces[static_cast<std::size_t>(before - 1)].body, solid.body,
                      piece);
      seen.Add(piece);
      pieces.push_back({solid.body, piece});
    }
  }
  return pieces;
}

/// Some bodies and their faces: as pieces where they were glued.
struct Pieces {
  std::vector<BodyShape> solids;
  std::vector<OwnedFace> faces;
};

/// Glue the bodies of a group together; one alone stays as it is.
void add_glued(const std::vector<BodyShape>& group, const ReadStep& step, Pieces& pieces) {
  std::vector<OwnedFace> faces = owned_faces(step, group);
  std::vector<BodyShape> solids = group;
  if (group.size() > 1) {
    Gluing gluing(group);
    std::vector<OwnedFace> images;
    for (const auto& [face, owner] : faces)
      for (const TopoDS_Shape& image : gluing.images(face)) images.push_back({image, owner});
    faces = std::move(images);
    solids = glued_solids(group, step.geometry, gluing);
  }
  pieces.solids.insert(pieces.solids.end(), solids.begin(), solids.end());
  pieces.faces.insert(pieces.faces.end(), faces.begin(), faces.end());
}

}  // namespace

ConformalShape make_conformal(const ReadStep& step) {
  Pieces pieces;
  for (const auto& group : glue_groups(modelled_solids(step), step.geometry, step.apart))
    add_glued(group, step, pieces);
  std::stable_sort(pieces.solids.begin(), pieces.solids.end(),
                   [](const auto& a, const auto& b) { return number(a.body) < number(b.body); });

  ConformalShape result;
  result.shape = compound_of(pieces.solids);
  TopTools_IndexedMapOfShape numbers;
  for (const BodyShape& solid : pieces.solids) {
    result.body_of_volume.push_back(solid.body);
    TopExp::MapShapes(solid.shape, TopAbs_FACE, numbers);
  }
  result.owners_of_face.resize(static_cast<std::size_t>(numbers.Extent()));
  for (const auto& [face, owner] : pieces.faces) {
    const int place = numbers.FindIndex(face);
    if (place > 0) result.owners_of_face[static_cast<std::size_t>(place - 1)].push_back(owner);
  }
  return result;
}

}  // namespace crossgrain
