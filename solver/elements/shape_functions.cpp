// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/elements/shape_functions.h"

namespace crossgrain {
namespace {

// Simplices of dimension D with C = D + 1 corners and N nodes differ in their table of edges only.

template <int D>
Eigen::Vector<double, D + 1> barycentric(const Eigen::Vector<double, D>& local) {
  Eigen::Vector<double, D + 1> L;
  L << 1.0 - local.sum(), local;
  return L;
}

/// Column i: gradient of barycentric coordinate i.
template <int D>
Eigen::Matrix<double, D, D + 1> barycentric_gradients() {
  Eigen::Matrix<double, D, D + 1> gradients;
  gradients << Eigen::Vector<double, D>::Constant(-1.0), Eigen::Matrix<double, D, D>::Identity();
  return gradients;
}

template <int D, int E>
Eigen::Vector<double, D + 1 + E> shape(const Eigen::Vector<double, D>& local,
                                       const int (&edges)[E][2]) {
  const auto L = barycentric<D>(local);
  Eigen::Vector<double, D + 1 + E> N;
  for (int i = 0; i <= D; ++i) N[i] = L[i] * (2.0 * L[i] - 1.0);
  for (int e = 0; e < E; ++e) N[D + 1 + e] = 4.0 * L[edges[e][0]] * L[edges[e][1]];
  return N;
}

template <int D, int E>
Eigen::Matrix<double, D, D + 1 + E> local_gradients(const Eigen::Vector<double, D>& local,
                                                    const int (&edges)[E][2]) {
  const auto L = barycentric<D>(local);
  const auto dL = barycentric_gradients<D>();
  Eigen::Matrix<double, D, D + 1 + E> dN;
  for (int i = 0; i <= D; ++i) dN.col(i) = (4.0 * L[i] - 1.0) * dL.col(i);
  for (int e = 0; e < E; ++e) {
    const auto [i, j] = edges[e];
    dN.col(D + 1 + e) = 4.0 * (L[i] * dL.col(j) + L[j] * dL.col(i));
  }
  return dN;
}

template <int D, int E>
Eigen::Matrix<double, D, D + 1 + E> local_nodes(const int (&edges)[E][2]) {
  Eigen::Matrix<double, D, D + 1 + E> nodes;
  nodes.setZero();
  nodes.template block<D, D>(0, 1).setIdentity();
  for (int e = 0; e < E; ++e)
    nodes.col(D + 1 + e) = 0.5 * (nodes.col(edges[e][0]) + nodes.col(edges[e][1]));
  return nodes;
}

}  // namespace

TetrahedronShape tetrahedron_shape(const Eigen::Vector3d& local) {
  return shape<3>(local, edges_of_tetrahedron);
}
TetrahedronGradients tetrahedron_local_gradients(const Eigen::Vector3d& local) {
  return local_gradients<3>(local, edges_of_tetrahedron);
}
TriangleShape triangle_shape(const Eigen::Vector2d& local) {
  return shape<2>(local, edges_of_triangle);
}
TriangleGradients triangle_local_gradients(const Eigen::Vector2d& local) {
  return local_gradients<2>(local, edges_of_triangle);
}
Eigen::Matrix<double, 3, 10> tetrahedron_nodes() { return local_nodes<3>(edges_of_tetrahedron); }
Eigen::Matrix<double, 2, 6> triangle_nodes() { return local_nodes<2>(edges_of_triangle); }

}  // namespace crossgrain
