// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/stress/element_stress.h"

namespace crossgrain {

/// A place where stress is kept and judged: a node as seen from one body. A node between two bodies
/// has a point in each.
struct StressPoint {
  int node;
  BodyId body;
  int tetrahedron;  ///< one of that body's tetrahedra at the node: names its material and frame
};

/// The stress points of a mesh, ordered by body and node; one per node of a one-body mesh.
std::vector<StressPoint> stress_points(const TetrahedronMesh& mesh);

/// The mean over the elements of the same body that meet at each point, weighted by volume.
/// @return 6 x points [MPa], global axes.
Eigen::Matrix<double, 6, Eigen::Dynamic> nodal_average(const TetrahedronMesh& mesh,
                                                       const std::vector<StressPoint>& points,
                                                       const ElementStress& elements);

/// The nodal average of a displacement's stress; arguments as for element_stress.
/// @return 6 x points [MPa], global axes.
Eigen::Matrix<double, 6, Eigen::Dynamic> recover_stress(
    const TetrahedronMesh& mesh, const MaterialField& field, const std::vector<StressPoint>& points,
    const Eigen::VectorXd& displacement, const Eigen::VectorXd& temperature_change = {});

/// Strain energy of a displacement field, thermal strain taken off [N mm = mJ].
double strain_energy(const TetrahedronMesh& mesh, const MaterialField& field,
                     const Eigen::VectorXd& displacement,
                     const Eigen::VectorXd& temperature_change = {});

/// Mass of each body [tonne], indexed by body.
std::vector<double> body_masses(const TetrahedronMesh& mesh, const MaterialField& field);

}  // namespace crossgrain
