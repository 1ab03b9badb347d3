// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/stress_interpolation.h"

#include <algorithm>
#include <cassert>
#include <tuple>

#include "solver/elements/shape_functions.h"

namespace crossgrain {

Vector6d stress_at(const TetrahedronMesh& mesh, const std::vector<StressPoint>& points,
                   const Eigen::Matrix<double, 6, Eigen::Dynamic>& stress,
                   const MeshLocation& location) {
  const auto N = tetrahedron_shape(location.local);
  const BodyId body = mesh.body_of_tetrahedron[location.tetrahedron];
  Vector6d sum = Vector6d::Zero();
  for (int a = 0; a < 10; ++a) {
    const int node = mesh.tetrahedra(a, location.tetrahedron);
    const auto point = std::lower_bound(
        points.begin(), points.end(), std::tuple(body, node),
        [](const auto& p, const auto& key) { return std::tuple(p.body, p.node) < key; });
    assert(point != points.end() && point->body == body && point->node == node);
    sum += N[a] * stress.col(point - points.begin());
  }
  return sum;
}

}  // namespace crossgrain
