// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "solver/elements/shape_functions.h"
#include "solver/loads/loads.h"

namespace crossgrain {

/// A quadrature point on a curved triangle.
struct SurfacePoint {
  Eigen::Vector3d position;  ///< [mm]
  Eigen::Vector3d area;      ///< outward normal times its share of the area, not weighted [mm^2]
  double weight;             ///< of the caller's weight function there [-]
  int triangle;
  TriangleShape shape;
};

/// Visit the quadrature points of triangles. Where `weight` is given, triangles are divided, most
/// where it jumps, so that the edge of an annulus is resolved to 1/64 of a triangle; points of
/// weight zero are left out.
void for_each_surface_point(const TetrahedronMesh& mesh, const std::vector<int>& triangles,
                            const ScalarOfPosition& weight,
                            const std::function<void(const SurfacePoint&)>& visit);

}  // namespace crossgrain
