// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include "solver/interface/interface_point.h"

namespace crossgrain {

/// Where two sets of boundary triangles lie opposite each other.
struct FaceOverlap {
  std::vector<InterfacePoint> points;  ///< those of a pair of triangles follow one another
  double area = 0.0;                   ///< of the first face that lies opposite the second [mm^2]
  std::array<double, 2> face_area{};   ///< of all of either [mm^2]
};

/// Quadrature points on the overlap of two faces whose meshes need not match: each triangle of the
/// second is projected onto the plane of one of the first, cut by it, and the polygon divided into
/// triangles with a rule of degree 6. Exact for straight triangles of flat faces: a constant
/// pressure goes into the nodes of both without error. Curved triangles, and flat ones with a
/// curved edge, are taken in four straight pieces each, and their points moved onto the curved
/// faces.
/// @param reach  how far apart, or how deep in each other, the faces may lie [mm].
/// @throws std::invalid_argument if nothing of the faces lies opposite each other within reach, or
/// the faces share nodes.
FaceOverlap overlap_faces(const TetrahedronMesh& mesh, const std::vector<int>& first,
                          const std::vector<int>& second, double reach);

}  // namespace crossgrain
