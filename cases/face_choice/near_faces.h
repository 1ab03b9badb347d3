// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/geometry/geometry.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/stress/stress_recovery.h"

namespace crossgrain {

/// 1 for every stress point that lies within `reach` of its own body's part of these faces. Each
/// curved triangle counts as four flat ones.
/// @param reach_of_body  by body index [mm].
std::vector<char> near_faces(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                             const std::vector<StressPoint>& points,
                             const std::vector<double>& reach_of_body);

/// Distance of a point from a flat triangle [mm].
double distance_to_triangle(const Eigen::Vector3d& point, const Eigen::Vector3d& a,
                            const Eigen::Vector3d& b, const Eigen::Vector3d& c);

/// For each point 1 if it lies within reach of one of these CAD edges and in the body of one of its
/// two faces.
std::vector<char> near_edges(const TetrahedronMesh& mesh, const Geometry& geometry,
                             const std::vector<EdgeId>& edges,
                             const std::vector<StressPoint>& points,
                             const std::vector<double>& reach_of_body);

}  // namespace crossgrain
