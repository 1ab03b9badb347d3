// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/tetrahedra/sized_point.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// What a mesh is to reach.
struct RefinementAim {
  double error;            ///< the sum of the elements' shares, in their unit
  double most_tetrahedra;  ///< that the new mesh may have, as far as can be foretold
};

/// The edge lengths that reach an aim with the fewest elements, if each element's share of the
/// error falls with the fourth power of its edges, as it does for quadratic elements where the
/// solution is smooth. Where it is not the fall is slower: then it takes further meshes.
/// @param shares  of each element, not negative.
/// @return one point for each patch of elements of like size: longer edges than an element has are
///         asked for where it is idle, up to `most_growth` times.
std::vector<SizedPoint> wanted_sizes(const TetrahedronMesh& mesh, const Eigen::VectorXd& shares,
                                     const RefinementAim& aim);

/// Mean length of the straight lines between an element's corners [mm].
double mean_edge(const TetrahedronMesh& mesh, Eigen::Index tetrahedron);

}  // namespace crossgrain
