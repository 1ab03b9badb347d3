// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/joined_faces.h"

#include <cmath>
#include <stdexcept>

#include "cases/case_file/case_place.h"
#include "cases/face_choice/face_choice.h"
#include "solver/elements/face_triangles.h"
#include "solver/interface/contact_stiffness.h"
#include "solver/interface/face_overlap.h"

namespace crossgrain {
namespace {

/// Faces that are drawn touching may lie this far apart, or in each other: what CAD and the
/// straight edges of a mesh on curved faces leave [mm].
constexpr double touching = 0.2;

std::vector<InterfacePoint> meeting_points(const FaceChoice& faces, const FaceChoice& mate,
                                           double reach, const Geometry& geometry,
                                           const Features& features, const TetrahedronMesh& mesh,
                                           const MaterialField& field) {
  const auto first = triangles_on(mesh, choose_faces(geometry, features, faces).faces, "faces");
  const auto second = triangles_on(mesh, choose_faces(geometry, features, mate).faces, "mate");
  auto points = overlap_faces(mesh, first, second, reach).points;
  set_contact_stiffness(mesh, field, points);
  return points;
}

/// Shear modulus of a rubber, which keeps its volume: E / 3.
double shear_modulus(double modulus) { return modulus / 3.0; }

}  // namespace

InterfacePair pair_contact(const ContactSpec& spec, const Geometry& geometry,
                           const Features& features, const TetrahedronMesh& mesh,
                           const MaterialField& field) {
  return told_at(spec.place, "[[contact]] '" + spec.name + "'", [&] {
    InterfacePair pair;
    pair.name = spec.name;
    if (spec.kind == ContactKind::tied) {
      pair.law = Tied{};
    } else {
      pair.law = Unilateral{};
    }
    pair.clearance = spec.clearance;
    pair.points = meeting_points(spec.faces, spec.mate, touching + std::abs(spec.clearance),
                                 geometry, features, mesh, field);
    return pair;
  });
}

InterfacePair pair_gasket(const GasketSpec& spec, const Geometry& geometry,
                          const Features& features, const TetrahedronMesh& mesh,
                          const MaterialField& field) {
  if (!spec.between) throw std::logic_error("pair_gasket: no mate");
  const GasketSpec::Between& between = *spec.between;
  return told_at(spec.place, "[[gasket]] '" + spec.name + "'", [&] {
    Bedding bedding{apparent_modulus(between.shape, between.modulus), between.shape.thickness};
    bedding.stiffens = true;
    if (between.shape.faces == GasketFaces::held) {
      bedding.shear_modulus = shear_modulus(between.modulus);
    }
    if (between.stop_squeeze) bedding.stop_squeeze = *between.stop_squeeze;
    InterfacePair pair;
    pair.name = spec.name;
    pair.law = bedding;
    pair.clearance = between.clearance;
    // Drawn with the gasket's room between them, or touching; nothing farther is its mate.
    const double reach = between.shape.thickness + between.clearance + touching;
    pair.points = meeting_points(spec.faces, between.mate, reach, geometry, features, mesh, field);
    return pair;
  });
}

}  // namespace crossgrain
