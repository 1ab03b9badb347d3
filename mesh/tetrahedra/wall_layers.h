// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "mesh/tetrahedra/mesh_report.h"
#include "mesh/tetrahedra/tetrahedron_mesh.h"

namespace crossgrain {

/// What a ray along the inward normal meets on its way through the body.
struct WallCrossing {
  FaceId face;
  BodyId body;
  Eigen::Vector3d position;  ///< on the surface [mm]
  Eigen::Vector3d inward;    ///< unit
  double area;               ///< of the surface that it stands for [mm^2]
  double wall;               ///< length inside [mm]
  int layers;  ///< elements crossed over more than a tenth of the wall, or wall / longest stretch
};

/// Cast rays from three points of every boundary triangle, through the elements taken with straight
/// edges. Rays that leave at an edge rather than through a wall (see least_wall_cosine) are left
/// out; so are those whose way is lost in rounding.
std::vector<WallCrossing> cross_walls(const TetrahedronMesh& mesh);

/// Smallest number of layers and smallest wall, but for the hundredth of the area where they are
/// least; places with fewer than `layers`, the worst first, no two near each other.
void report_layers(const std::vector<WallCrossing>& crossings, int layers, MeshReport& report);

}  // namespace crossgrain
