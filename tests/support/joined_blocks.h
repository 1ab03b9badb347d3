// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/elements/face_triangles.h"
#include "solver/interface/contact_stiffness.h"
#include "solver/interface/face_overlap.h"
#include "solver/interface/joint_solver.h"
#include "tests/support/structured_mesh.h"

namespace crossgrain::testing {

/// Sides of the second block are numbered from 11 on.
constexpr int second_block = 10;
constexpr FaceId of_second(FaceId side) { return FaceId{number(side) + second_block}; }

/// The second mesh beside the first, as body 2.
inline TetrahedronMesh two_bodies(const TetrahedronMesh& first, const TetrahedronMesh& second,
                                  int face_offset = second_block) {
  auto mesh = joined(first, second, face_offset);
  for (Eigen::Index t = first.tetrahedron_count(); t < mesh.tetrahedron_count(); ++t)
    mesh.body_of_tetrahedron[t] = BodyId{2};
  return mesh;
}

/// A pair between these faces.
inline InterfacePair pair_between(const TetrahedronMesh& mesh, const MaterialField& field,
                                  const std::vector<FaceId>& first,
                                  const std::vector<FaceId>& second, const InterfaceLaw& law,
                                  double reach) {
  InterfacePair pair{"pair", law, {}};
  pair.points = overlap_faces(mesh, triangles_on(mesh, first, "first"),
                              triangles_on(mesh, second, "second"), reach)
                    .points;
  set_contact_stiffness(mesh, field, pair.points);
  return pair;
}

}  // namespace crossgrain::testing
