// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/mesh_checks.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace crossgrain {
namespace {

using Eigen::Vector3d;

// The node in the middle of the edge between two corners.
constexpr int middle[4][4] = {{-1, 4, 6, 7}, {4, -1, 5, 8}, {6, 5, -1, 9}, {7, 8, 9, -1}};

/// The position's derivatives along the three reference directions, at each corner; they vary
/// linearly between them.
using CornerDerivatives = std::array<std::array<Vector3d, 3>, 4>;

CornerDerivatives corner_derivatives(const TetrahedronMesh& mesh, Eigen::Index element) {
  const auto node = [&](int i) -> Vector3d { return mesh.nodes.col(mesh.tetrahedra(i, element)); };
  CornerDerivatives derivatives;
  for (int at = 0; at < 4; ++at) {
    // With N_i = L_i (2 L_i - 1) and N_ij = 4 L_i L_j: the derivative by L_m where L_at = 1.
    std::array<Vector3d, 4> by_L;
    for (int m = 0; m < 4; ++m)
      by_L[m] = m == at ? Vector3d(3.0 * node(at)) : Vector3d(4.0 * node(middle[m][at]) - node(m));
    for (int a = 0; a < 3; ++a) derivatives[at][a] = by_L[a + 1] - by_L[0];
  }
  return derivatives;
}

double determinant(const Vector3d& a, const Vector3d& b, const Vector3d& c) {
  return a.dot(b.cross(c));
}

/// The coefficient of the corners i, j, k: the mean over all ways to hand them to the directions.
double coefficient(const CornerDerivatives& d, int i, int j, int k) {
  return (determinant(d[i][0], d[j][1], d[k][2]) + determinant(d[i][0], d[k][1], d[j][2]) +
          determinant(d[j][0], d[i][1], d[k][2]) + determinant(d[j][0], d[k][1], d[i][2]) +
          determinant(d[k][0], d[i][1], d[j][2]) + determinant(d[k][0], d[j][1], d[i][2])) /
         6.0;
}

}  // namespace

JacobianBounds jacobian_bounds(const TetrahedronMesh& mesh, Eigen::Index element) {
  const CornerDerivatives d = corner_derivatives(mesh, element);
  constexpr double infinity = std::numeric_limits<double>::infinity();
  JacobianBounds bounds{infinity, -infinity, 0.0, 0.0};
  bool finite = true;
  for (int i = 0; i < 4; ++i) {
    for (int j = i; j < 4; ++j) {
      for (int k = j; k < 4; ++k) {
        const double c = coefficient(d, i, j, k);
        finite = finite && std::isfinite(c);
        bounds.least = std::min(bounds.least, c);
        bounds.greatest = std::max(bounds.greatest, c);
        bounds.mean += c / 20.0;  // all 20 Bernstein polynomials have the same integral
      }
    }
  }
  if (!finite) bounds.least = -infinity;
  const auto corner = [&](int i) -> Vector3d {
    return mesh.nodes.col(mesh.tetrahedra(i, element));
  };
  bounds.straight =
      determinant(corner(1) - corner(0), corner(2) - corner(0), corner(3) - corner(0));
  return bounds;
}

double scaled_jacobian(const TetrahedronMesh& mesh, Eigen::Index element,
                       const JacobianBounds& bounds) {
  double squares = 0.0;
  for (int i = 0; i < 4; ++i)
    for (int j = 0; j < i; ++j)
      squares += (mesh.nodes.col(mesh.tetrahedra(i, element)) -
                  mesh.nodes.col(mesh.tetrahedra(j, element)))
                     .squaredNorm();
  const double edge = std::sqrt(squares / 6.0);
  return bounds.least * std::sqrt(2.0) / (edge * edge * edge);
}

double element_volume(const TetrahedronMesh& mesh, Eigen::Index element) {
  return jacobian_bounds(mesh, element).mean / 6.0;
}

double mesh_volume(const TetrahedronMesh& mesh) {
  double volume = 0.0;
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e) volume += element_volume(mesh, e);
  return volume;
}

}  // namespace crossgrain
