// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/felt_stress.h"

#include <boost/test/unit_test.hpp>

#include "solver/stress/bead_fit.h"
#include "tests/support/imposed_stress.h"
#include "tests/support/structured_mesh.h"

namespace crossgrain::verification {

void check_felt(const std::string& id, const std::string& what, const std::string& source,
                double target, const Tolerance& tolerance, double obtained) {
  check({Chapter::bead_fit, id, what, source, target, tolerance}, obtained);
}

StressPoint point_at(const TetrahedronMesh& mesh, const Eigen::Vector3d& position) {
  const int node = testing::nearest_node(mesh, position);
  BOOST_TEST_REQUIRE((mesh.nodes.col(node) - position).norm() < 1e-9);
  return {node, mesh.body_of_tetrahedron.front(), 0};
}

double felt_at(const TetrahedronMesh& mesh, const Eigen::Vector3d& position, double bead,
               const std::function<double(const Eigen::Vector3d&)>& field) {
  return BeadFit(mesh, {point_at(mesh, position)}, {bead})
      .of(testing::imposed_stress(mesh, testing::all_components(field)))(2, 0);
}

}  // namespace crossgrain::verification
