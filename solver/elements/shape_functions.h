// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

namespace crossgrain {

// Quadratic shape functions on the unit tetrahedron (0,0,0) (1,0,0) (0,1,0) (0,0,1) and the unit
// triangle, in the node order of TetrahedronMesh. With L the barycentric coordinates: L (2 L - 1)
// at a corner, 4 L_i L_j in the middle of an edge.

/// Corners at the ends of each of the six edges of a tetrahedron; edge e carries node 4 + e.
constexpr int edges_of_tetrahedron[6][2] = {{0, 1}, {1, 2}, {2, 0}, {0, 3}, {1, 3}, {2, 3}};
/// Corners at the ends of each of the three edges of a triangle; edge e carries node 3 + e.
constexpr int edges_of_triangle[3][2] = {{0, 1}, {1, 2}, {2, 0}};

using TetrahedronShape = Eigen::Matrix<double, 10, 1>;
using TetrahedronGradients = Eigen::Matrix<double, 3, 10>;
using TriangleShape = Eigen::Matrix<double, 6, 1>;
using TriangleGradients = Eigen::Matrix<double, 2, 6>;

TetrahedronShape tetrahedron_shape(const Eigen::Vector3d& local);
/// Column a: gradient of shape function a by the local coordinates [-].
TetrahedronGradients tetrahedron_local_gradients(const Eigen::Vector3d& local);
TriangleShape triangle_shape(const Eigen::Vector2d& local);
TriangleGradients triangle_local_gradients(const Eigen::Vector2d& local);

/// Local coordinates of the ten nodes: 3 x 10.
Eigen::Matrix<double, 3, 10> tetrahedron_nodes();
/// Local coordinates of the six nodes: 2 x 6.
Eigen::Matrix<double, 2, 6> triangle_nodes();

}  // namespace crossgrain
