// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/stress_interpolation.h"

#include "solver/elements/shape_functions.h"
#include "solver/stress/body_points.h"

namespace crossgrain {

Vector6d stress_at(const TetrahedronMesh& mesh, const std::vector<StressPoint>& points,
                   const Eigen::Matrix<double, 6, Eigen::Dynamic>& stress,
                   const MeshLocation& location) {
  const auto N = tetrahedron_shape(location.local);
  const BodyId body = mesh.body_of_tetrahedron[location.tetrahedron];
  const BodyPoints point_at(points);
  Vector6d sum = Vector6d::Zero();
  for (int a = 0; a < 10; ++a)
    sum += N[a] * stress.col(point_at.of(mesh.tetrahedra(a, location.tetrahedron), body));
  return sum;
}

}  // namespace crossgrain
