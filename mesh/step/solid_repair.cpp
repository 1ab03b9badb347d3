// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/solid_repair.h"

#include <BRepBuilderAPI_Copy.hxx>
#include <BRepBuilderAPI_MakeSolid.hxx>
#include <BRepBuilderAPI_Sewing.hxx>
#include <BRepClass3d_SolidClassifier.hxx>
#include <BRepGProp.hxx>
#include <BRep_Tool.hxx>
#include <GProp_GProps.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_MapOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Shell.hxx>
#include <algorithm>
#include <stdexcept>

#include "mesh/geometry/edge_description.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

bool is_face(const Stray& stray) { return stray.shape.ShapeType() == TopAbs_FACE; }

std::string counted(std::ptrdiff_t count, const std::string& thing) {
  return std::to_string(count) + " " + thing + (count == 1 ? "" : "s");
}

double volume_of(const TopoDS_Shape& shape) {
  GProp_GProps properties;
  BRepGProp::VolumeProperties(shape, properties, 1e-3);
  return properties.Mass();
}

/// The labels of the sewn faces, in the order in which the solid's faces are first met.
std::vector<Label> labels_after(const BRepBuilderAPI_Sewing& sewing, const TopoDS_Solid& solid,
                                const std::vector<Stray>& strays) {
  std::vector<Label> labels;
  for (TopExp_Explorer face(solid, TopAbs_FACE); face.More(); face.Next()) {
    const auto origin = std::find_if(strays.begin(), strays.end(), [&](const Stray& stray) {
      return is_face(stray) && sewing.ModifiedSubShape(stray.shape).IsSame(face.Current());
    });
    labels.push_back(origin == strays.end() ? Label() : origin->label);
  }
  return labels;
}

void add_faces(BRepBuilderAPI_Sewing& sewing, const std::vector<Stray>& strays) {
  for (const Stray& stray : strays) {
    if (is_face(stray)) {
      sewing.Add(stray.shape);
    }
  }
}

/// Solids from surfaces; none unless every surface found its place in a closed shell.
std::vector<LabelledSolid> sew(const std::vector<Stray>& strays, double tolerance) {
  BRepBuilderAPI_Sewing sewing(tolerance);
  add_faces(sewing, strays);
  sewing.Perform();
  std::vector<LabelledSolid> solids;
  std::ptrdiff_t used = 0;
  for (TopExp_Explorer shell(sewing.SewedShape(), TopAbs_SHELL); shell.More(); shell.Next()) {
    TopoDS_Solid solid = BRepBuilderAPI_MakeSolid(TopoDS::Shell(shell.Current()));
    const double volume = volume_of(solid);
    if (!BRep_Tool::IsClosed(shell.Current()) || volume == 0.0) {
      return {};
    }
    if (volume < 0.0) {
      solid.Reverse();
    }
    LabelledSolid body;
    body.faces = labels_after(sewing, solid, strays);
    body.solid = solid;
    solids.push_back(std::move(body));
    used += static_cast<std::ptrdiff_t>(solids.back().faces.size());
  }
  const bool all = used == std::count_if(strays.begin(), strays.end(), is_face);
  return all ? solids : std::vector<LabelledSolid>();
}

/// Where surfaces that do not close leave off, in words.
std::string gaps(const std::vector<Stray>& strays, double tolerance) {
  BRepBuilderAPI_Sewing sewing(tolerance);
  add_faces(sewing, strays);
  sewing.Perform();
  if (sewing.NbFreeEdges() == 0) {
    return "";
  }
  return ": " + counted(sewing.NbFreeEdges(), "edge") +
         (sewing.NbFreeEdges() == 1 ? " has" : " have") +
         " a face on one side only, the first at " +
         words(describe_edge(sewing.FreeEdge(1)).middle) + " mm";
}

void sew_surfaces(StepDocument& document, const std::string& file,
                  std::vector<std::string>& warnings) {
  const auto faces = std::count_if(document.strays.begin(), document.strays.end(), is_face);
  if (faces == 0) {
    throw std::invalid_argument(file +
                                ": holds no solid body and no surface; export the part, not a "
                                "sketch or a mesh, as a solid");
  }
  constexpr double widest = 1e-2;  // [mm]
  for (const double tolerance : {1e-6, 1e-4, 1e-3, widest}) {
    document.solids = sew(document.strays, tolerance);
    if (!document.solids.empty()) {
      const auto shape = [](const Stray& stray) { return is_face(stray); };
      document.strays.erase(std::remove_if(document.strays.begin(), document.strays.end(), shape),
                            document.strays.end());
      warnings.push_back("the file holds surfaces only; " + counted(faces, "face") + " sewn to " +
                         counted(static_cast<std::ptrdiff_t>(document.solids.size()), "solid") +
                         ": check the volume");
      return;
    }
  }
  throw std::invalid_argument(file + ": holds no solid body, only " + counted(faces, "surface") +
                              " that do not close" + gaps(document.strays, widest) +
                              "; close them into a solid in CAD and export again");
}

void turn_inside_out(LabelledSolid& body, std::size_t number, std::vector<std::string>& warnings) {
  if (volume_of(body.solid) < 0.0) {
    body.solid.Reverse();
    warnings.push_back("body " + std::to_string(number) + " was inside out; it has been turned");
  }
}

/// Ids count a face once, so a face that the file gives to two solids must become two.
void unshare_faces(std::vector<LabelledSolid>& solids) {
  TopTools_MapOfShape seen;
  for (LabelledSolid& body : solids) {
    bool shared = false;
    for (TopExp_Explorer face(body.solid, TopAbs_FACE); face.More(); face.Next()) {
      shared = shared || seen.Contains(face.Current());
    }
    if (shared) {
      body.solid = TopoDS::Solid(BRepBuilderAPI_Copy(body.solid).Shape());
    }
    for (TopExp_Explorer face(body.solid, TopAbs_FACE); face.More(); face.Next()) {
      seen.Add(face.Current());
    }
  }
}

void drop_strays(StepDocument& document, std::vector<std::string>& warnings) {
  const auto faces = std::count_if(document.strays.begin(), document.strays.end(), is_face);
  const auto curves = static_cast<std::ptrdiff_t>(document.strays.size()) - faces;
  document.strays.clear();
  if (faces > 0) {
    warnings.push_back(
        counted(faces, "face") + (faces == 1 ? " that belongs" : " that belong") +
        " to no solid dropped; if they are part of the body, join them to it in CAD");
  }
  if (curves > 0) {
    warnings.push_back(counted(curves, "curve") +
                       " outside the solids (drawing notes, mostly) dropped");
  }
}

}  // namespace

void make_sound_solids(StepDocument& document, const std::string& file,
                       std::vector<std::string>& warnings) {
  if (document.solids.empty()) {
    sew_surfaces(document, file, warnings);
  }
  for (std::size_t i = 0; i < document.solids.size(); ++i) {
    turn_inside_out(document.solids[i], i + 1, warnings);
  }
  unshare_faces(document.solids);
  drop_strays(document, warnings);
}

}  // namespace crossgrain
