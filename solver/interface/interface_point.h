// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

#include "mesh/tetrahedra/tetrahedron_mesh.h"
#include "solver/elements/shape_functions.h"

namespace crossgrain {

/// Where a point of an interface lies on one of its two faces.
struct InterfaceSide {
  int triangle;
  TriangleShape shape;
};

/// A quadrature point between two faces, which share no nodes.
struct InterfacePoint {
  Eigen::Vector3d position;  ///< on the first face [mm]
  Eigen::Vector3d normal;    ///< unit, from the first face's material towards the second's
  double area;               ///< its share of the first face [mm^2]
  double distance;  ///< between the faces as meshed, along the normal; negative: they overlap [mm]
  double stiffness = 0.0;  ///< per area, of what pushes or ties directly [N/mm^3]
  std::array<InterfaceSide, 2> sides;
};

/// How far the second face has moved away from the first at a point [mm].
/// @param u  unknowns [mm].
inline Eigen::Vector3d jump(const TetrahedronMesh& mesh, const InterfacePoint& point,
                            const Eigen::VectorXd& u) {
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  for (int side = 0; side < 2; ++side)
    for (int a = 0; a < 6; ++a) {
      const Eigen::Index node = mesh.triangles(a, point.sides[side].triangle);
      sum += (side == 0 ? -1.0 : 1.0) * point.sides[side].shape[a] * u.segment<3>(3 * node);
    }
  return sum;
}

}  // namespace crossgrain
