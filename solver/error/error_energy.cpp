// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/error/error_energy.h"

#include <Eigen/Cholesky>

#include "solver/elements/parallel.h"
#include "solver/elements/point_material.h"
#include "solver/elements/quadrature.h"
#include "solver/elements/shape_functions.h"
#include "solver/stress/body_points.h"

namespace crossgrain {
namespace {

using Eigen::Index;
using Matrix10d = Eigen::Matrix<double, 10, 10>;
using NodalStress = Eigen::Matrix<double, 6, 10>;

/// Integrals of products of shape functions over an element of volume 1 with straight sides.
Matrix10d shape_products() {
  const auto& rule = tetrahedron_rule(5);
  Matrix10d products = Matrix10d::Zero();
  for (Index q = 0; q < rule.size(); ++q) {
    const TetrahedronShape shape = tetrahedron_shape(rule.points.col(q));
    products += 6.0 * rule.weights[q] * shape * shape.transpose();
  }
  return products;
}

/// Recovered less own stress, at the nodes of an element.
NodalStress difference(const TetrahedronMesh& mesh, const BodyPoints& point_at, Index t,
                       const EstimatedStress& stress) {
  NodalStress at_nodes;
  const auto own = stress.elements.of(t);
  for (int k = 0; k < 10; ++k)
    at_nodes.col(k) =
        stress.recovered.col(point_at.of(mesh.tetrahedra(k, t), mesh.body_of_tetrahedron[t]));
  for (int k = 0; k < 4; ++k) at_nodes.col(k) -= own.col(k);
  for (int e = 0; e < 6; ++e) {
    const auto [a, b] = edges_of_tetrahedron[e];
    at_nodes.col(4 + e) -= 0.5 * (own.col(a) + own.col(b));
  }
  return at_nodes;
}

}  // namespace

Eigen::VectorXd error_energy(const TetrahedronMesh& mesh, const MaterialField& field,
                             const std::vector<StressPoint>& points, const EstimatedStress& one,
                             const EstimatedStress& other) {
  const Matrix10d products = shape_products();
  const BodyPoints point_at(points);
  Eigen::VectorXd energy(mesh.tetrahedron_count());
  in_parallel(mesh.tetrahedron_count(), 0, [&](Index begin, Index end) {
    PointMaterial material(field);
    for (auto t = begin; t < end; ++t) {
      const NodalStress a = difference(mesh, point_at, t, one);
      const NodalStress strain =
          material.stiffness(t, 0).llt().solve(difference(mesh, point_at, t, other));
      energy[t] = one.elements.volumes[t] * (a.transpose() * strain).cwiseProduct(products).sum();
    }
  });
  return energy;
}

}  // namespace crossgrain
