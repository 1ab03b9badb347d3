// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <functional>

#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain::testing {

/// Sides of the unit cube that a block is mapped from, numbered as CAD faces.
constexpr FaceId xi_low{1}, xi_high{2}, eta_low{3}, eta_high{4}, zeta_low{5}, zeta_high{6};

/// Where a point (xi, eta, zeta) of the unit cube lies in space [mm]; grading is the map's
/// business.
using BlockMap = std::function<Eigen::Vector3d(const Eigen::Vector3d&)>;

/// The body of a cell, by its centre in the unit cube. Triangles lie on the block's outside only.
using BodyOfCell = std::function<BodyId(const Eigen::Vector3d&)>;

/// A block of cells, each cut into six tetrahedra that share one diagonal, so that neighbours
/// match. Corners and mid-side nodes all lie on the mapped grid: curved sides follow the map.
/// Left-handed maps are welcome: elements are turned to positive orientation.
/// @param cells  along xi, eta, zeta.
TetrahedronMesh block_mesh(const std::array<int, 3>& cells, const BlockMap& map,
                           const BodyOfCell& body = {});

/// Straight block with one corner at the origin. @param size [mm]
TetrahedronMesh box_mesh(const std::array<int, 3>& cells, const Eigen::Vector3d& size);

/// Both meshes side by side; nothing is merged. @param face_offset  added to the second's face
/// numbers.
TetrahedronMesh joined(const TetrahedronMesh& first, const TetrahedronMesh& second,
                       int face_offset);

/// Merge nodes closer than `tolerance` [mm] and drop the triangles that thereby meet in pairs:
/// closes a ring (xi = 0 on xi = 1) or joins blocks. Grids must match.
TetrahedronMesh welded(const TetrahedronMesh& mesh, double tolerance);

/// The node nearest to a point.
int nearest_node(const TetrahedronMesh& mesh, const Eigen::Vector3d& point);

/// Nodes on any of these faces, ascending.
std::vector<int> nodes_on(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces);

}  // namespace crossgrain::testing
