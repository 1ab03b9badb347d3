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
  Eigen::Matrix<double, 3, 6> gradient;  ///< of the shape functions along the face [1/mm]
  Eigen::Vector3d normal;                ///< unit, outwards
};

/// A quadrature point between two faces, which share no nodes.
struct InterfacePoint {
  Eigen::Vector3d position;  ///< on the first face [mm]
  Eigen::Vector3d normal;    ///< unit, from the first face's material towards the second's
  double area;               ///< its share of the first face [mm^2]
  double distance;  ///< between the faces as meshed, along the normal; negative: they overlap [mm]
  Eigen::Vector3d across = Eigen::Vector3d::Zero();  ///< to the place on the second face [mm]
  double stiffness = 0.0;  ///< per area, of what pushes or ties directly [N/mm^3]
  std::array<InterfaceSide, 2> sides;
};

/// How a face turns at a place: the mean rotation of what surrounds it on the face, exact in a
/// rigid motion.
/// @param u  unknowns [mm].
Eigen::Vector3d rotation(const TetrahedronMesh& mesh, const InterfaceSide& side,
                         const Eigen::VectorXd& u);

/// How far the second face has moved away from the first at a point, beyond what turning both as
/// they turn does to places that lie apart: a gasket that is turned with its flanges is not sheared
/// [mm].
/// @param u  unknowns [mm].
Eigen::Vector3d jump(const TetrahedronMesh& mesh, const InterfacePoint& point,
                     const Eigen::VectorXd& u);

/// Its derivative by the displacement of each node: of the first face's triangle, then of the
/// second's.
std::array<Eigen::Matrix3d, 12> jump_derivatives(const InterfacePoint& point);

/// The same of the work that a traction does on the jump, without making those: 3 x 12, in the
/// traction's unit.
Eigen::Matrix<double, 3, 12> work_on_jump(const InterfacePoint& point,
                                          const Eigen::Vector3d& traction);

}  // namespace crossgrain
