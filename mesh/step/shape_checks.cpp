// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/shape_checks.h"

#include <BRepAlgoAPI_Common.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepGProp.hxx>
#include <BRepTools.hxx>
#include <GProp_GProps.hxx>
#include <Standard_Failure.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <optional>
#include <utility>

#include "mesh/geometry/geometry_words.h"
#include "mesh/geometry/kernel_vectors.h"

namespace crossgrain {
namespace {

std::vector<FaceId> faces_of_modelled(const Geometry& geometry) {
  std::vector<FaceId> ids;
  for (const CadFace& face : geometry.faces) {
    if (geometry.body(face.body).modelled) {
      ids.push_back(face.id);
    }
  }
  return ids;
}

std::vector<FaceId> invalid_faces(const std::vector<FaceId>& ids,
                                  const TopTools_IndexedMapOfShape& faces) {
  std::vector<FaceId> found;
  std::copy_if(ids.begin(), ids.end(), std::back_inserter(found),
               [&](FaceId id) { return !BRepCheck_Analyzer(faces(number(id))).IsValid(); });
  return found;
}

std::vector<FaceId> faces_without_range(const std::vector<FaceId>& ids,
                                        const TopTools_IndexedMapOfShape& faces) {
  std::vector<FaceId> found;
  std::copy_if(ids.begin(), ids.end(), std::back_inserter(found), [&](FaceId id) {
    double u_low = 0.0, u_high = 0.0, v_low = 0.0, v_high = 0.0;
    BRepTools::UVBounds(TopoDS::Face(faces(number(id))), u_low, u_high, v_low, v_high);
    return !(u_high - u_low > 1e-9 && v_high - v_low > 1e-9);
  });
  return found;
}

/// Whether bodies can share more than the rounding of faces that touch.
constexpr double least_share = 1e-6;  // of the smaller body
bool may_overlap(const Body& a, const Body& b) {
  const Eigen::Vector3d common = a.box.high.cwiseMin(b.box.high) - a.box.low.cwiseMax(b.box.low);
  return (common.array() > 0.0).all() && common.prod() > least_share * std::min(a.volume, b.volume);
}

struct Overlap {
  double volume;
  Eigen::Vector3d centroid;
};

std::optional<Overlap> overlap_of(const TopoDS_Solid& a, const TopoDS_Solid& b) {
  try {
    BRepAlgoAPI_Common common(a, b);
    GProp_GProps properties;
    BRepGProp::VolumeProperties(common.Shape(), properties);
    return Overlap{properties.Mass(), vector_from(properties.CentreOfMass())};
  } catch (const Standard_Failure&) {
    return std::nullopt;  // the mesher will say more
  }
}

std::string overlap_words(const Body& a, const Body& b, const Overlap& overlap) {
  return "bodies " + words(a) + " and " + words(b) + " overlap by " + words(overlap.volume) +
         " mm^3 near " + words(overlap.centroid) +
         ": the same space would count twice; cut one from the other in CAD, or model only one of "
         "them";
}

std::vector<std::pair<std::size_t, std::size_t>> neighbours(const Geometry& geometry) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t i = 0; i < geometry.bodies.size(); ++i) {
    for (std::size_t j = i + 1; j < geometry.bodies.size(); ++j) {
      const Body &a = geometry.bodies[i], &b = geometry.bodies[j];
      if (a.modelled && b.modelled && may_overlap(a, b)) {
        pairs.emplace_back(i, j);
      }
    }
  }
  return pairs;
}

void warn_of_overlaps(const std::vector<LabelledSolid>& solids, const Geometry& geometry,
                      std::vector<std::string>& warnings) {
  constexpr std::size_t most = 50;  // a pair takes a fifth of a second
  auto pairs = neighbours(geometry);
  if (pairs.size() > most) {
    warnings.push_back(std::to_string(pairs.size()) +
                       " pairs of bodies lie close together; the first " + std::to_string(most) +
                       " were searched for overlap: model only the bodies that carry load");
    pairs.resize(most);
  }
  for (const auto& [i, j] : pairs) {
    const Body &a = geometry.bodies[i], &b = geometry.bodies[j];
    const auto overlap = overlap_of(solids[i].solid, solids[j].solid);
    if (overlap && overlap->volume > least_share * std::min(a.volume, b.volume)) {
      warnings.push_back(overlap_words(a, b, *overlap));
    }
  }
}

}  // namespace

std::vector<std::string> shape_warnings(const std::vector<LabelledSolid>& solids,
                                        const TopTools_IndexedMapOfShape& faces,
                                        const Geometry& geometry) {
  std::vector<std::string> warnings;
  const std::vector<FaceId> modelled = faces_of_modelled(geometry);
  if (const auto found = invalid_faces(modelled, faces); !found.empty()) {
    warnings.push_back(words(found) +
                       " not sound (edges that cross or miss their surface); meshing may fail "
                       "there: mend in CAD, or export with a finer tolerance");
  }
  if (const auto found = faces_without_range(modelled, faces); !found.empty()) {
    warnings.push_back(words(found) +
                       " without extent (the cone of a drill's tip, mostly); meshing may hang "
                       "there: give the hole a flat floor in CAD");
  }
  warn_of_overlaps(solids, geometry, warnings);
  return warnings;
}

}  // namespace crossgrain
