// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/shape_checks.h"

#include <BRepCheck_Analyzer.hxx>
#include <BRepTools.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <utility>

#include "mesh/geometry/geometry_words.h"
#include "mesh/step/apart_bodies.h"
#include "mesh/step/body_overlap.h"

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

std::vector<std::pair<std::size_t, std::size_t>> neighbours(const Geometry& geometry,
                                                            const std::vector<KeptApart>& apart) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t i = 0; i < geometry.bodies.size(); ++i) {
    for (std::size_t j = i + 1; j < geometry.bodies.size(); ++j) {
      const Body &a = geometry.bodies[i], &b = geometry.bodies[j];
      if (a.modelled && b.modelled && !kept_apart(apart, a.id, b.id) && may_overlap(a, b)) {
        pairs.emplace_back(i, j);
      }
    }
  }
  return pairs;
}

void warn_of_overlaps(const std::vector<LabelledSolid>& solids, const Geometry& geometry,
                      const std::vector<KeptApart>& apart, std::vector<std::string>& warnings) {
  constexpr std::size_t most = 50;  // a pair takes a fifth of a second
  auto pairs = neighbours(geometry, apart);
  if (pairs.size() > most) {
    warnings.push_back(std::to_string(pairs.size()) +
                       " pairs of bodies lie close together; the first " + std::to_string(most) +
                       " were searched for overlap: model only the bodies that carry load");
    pairs.resize(most);
  }
  for (const auto& [i, j] : pairs) {
    const Body &a = geometry.bodies[i], &b = geometry.bodies[j];
    const auto found = overlap_of(solids[i].solid, solids[j].solid);
    if (found && overlap(a, b, *found)) {  // where the kernel failed, the mesher will say more
      warnings.push_back(overlap_words(a, b, *found) +
                         ": the same space would count twice; cut one from the other in CAD, or "
                         "model only one of them");
    }
  }
}

}  // namespace

std::vector<std::string> shape_warnings(const std::vector<LabelledSolid>& solids,
                                        const TopTools_IndexedMapOfShape& faces,
                                        const Geometry& geometry,
                                        const std::vector<KeptApart>& apart) {
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
  warn_of_overlaps(solids, geometry, apart, warnings);
  return warnings;
}

}  // namespace crossgrain
