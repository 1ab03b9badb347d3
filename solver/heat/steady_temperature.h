// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// Faces that something keeps at a temperature.
struct KeptTemperature {
  std::vector<FaceId> faces;
  double change;  ///< [K]
};

/// The temperature that settles in a part whose faces are kept at temperatures, by conduction
/// alike in all directions; faces that are not named let no heat through. Bodies that share no
/// nodes pass none on to each other. Where faces kept at different temperatures share an edge it
/// has their mean.
/// @return by node [K].
/// @throws std::invalid_argument for a face without triangles, for a body none of whose faces is
/// kept, naming a place in it.
Eigen::VectorXd steady_temperature(const TetrahedronMesh& mesh,
                                   const std::vector<KeptTemperature>& kept);

}  // namespace crossgrain
