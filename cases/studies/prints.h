// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/elements/material_field.h"

namespace crossgrain {

/// Bodies that are printed in one piece: glued, and in the case along one direction.
struct Print {
  std::string name;  ///< of its bodies
  std::vector<BodyId> bodies;
  Eigen::Vector3d build;  ///< in the case
};

/// Those of bodies with layers, in the order of their first bodies; where no body has any, of all.
/// @param field       as the case has the bodies printed, one frame a body.
/// @param body_names  by body index.
std::vector<Print> prints_of(const TetrahedronMesh& mesh, const MaterialField& field,
                             const std::vector<std::string>& body_names);

}  // namespace crossgrain
