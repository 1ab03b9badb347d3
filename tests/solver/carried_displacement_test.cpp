// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/location/carried_displacement.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <functional>
#include <limits>

#include "tests/support/refusal.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using Eigen::Vector3d;

namespace {

/// Any polynomial of the second degree.
Vector3d quadratic(const Vector3d& x) {
  return {1.0 + x.x() * x.y() - 2.0 * x.z() * x.z(), x.x() * x.x() - 3.0 * x.y(),
          2.0 * x.y() * x.z() + 0.5 * x.x()};
}

Eigen::VectorXd field(const TetrahedronMesh& mesh, const std::function<Vector3d(Vector3d)>& u) {
  Eigen::VectorXd values(mesh.unknowns());
  for (Eigen::Index n = 0; n < mesh.node_count(); ++n)
    values.segment<3>(3 * n) = u(mesh.nodes.col(n));
  return values;
}

TetrahedronMesh quarter_pipe(const std::array<int, 3>& cells) {
  return block_mesh(cells, [](const Vector3d& u) {
    const double r = 10.0 + 2.0 * u.y(), angle = 0.5 * M_PI * u.x();
    return Vector3d(r * std::cos(angle), r * std::sin(angle), 6.0 * u.z());
  });
}

TetrahedronMesh of_body(TetrahedronMesh mesh, BodyId body) {
  for (BodyId& at : mesh.body_of_tetrahedron) at = body;
  return mesh;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(carried)

BOOST_AUTO_TEST_CASE(a_quadratic_field_is_carried_exactly) {
  const TetrahedronMesh old_mesh = box_mesh({3, 2, 2}, {6, 5, 4}),
                        new_mesh = box_mesh({5, 4, 7}, {6, 5, 4});
  Eigen::MatrixXd loads(old_mesh.unknowns(), 2), expected(new_mesh.unknowns(), 2);
  loads << field(old_mesh, quadratic), -2.0 * field(old_mesh, quadratic);
  expected << field(new_mesh, quadratic), -2.0 * field(new_mesh, quadratic);

  for (const int threads : {1, 3}) {
    const Eigen::MatrixXd carried = carried_displacement(old_mesh, loads, new_mesh, threads);
    BOOST_TEST((carried - expected).cwiseAbs().maxCoeff() < 1e-11 * expected.cwiseAbs().maxCoeff());
  }
}

BOOST_AUTO_TEST_CASE(nodes_beside_the_old_elements_take_the_nearest_place) {
  // The coarse sides run up to this far from the pipe: R (1 - cos of an eighth of the turn of an
  // element)^2 or so for a parabola through three points of an arc; measured 0.005 mm.
  const TetrahedronMesh coarse = quarter_pipe({2, 1, 2}), fine = quarter_pipe({9, 4, 5});
  const auto linear = [](const Vector3d& x) { return Vector3d(2.0 * x.x(), x.z() - x.y(), 1.0); };

  const Eigen::VectorXd carried = carried_displacement(coarse, field(coarse, linear), fine);

  BOOST_TEST(carried.allFinite());
  BOOST_TEST((carried - field(fine, linear)).cwiseAbs().maxCoeff() < 0.02);
}

BOOST_AUTO_TEST_CASE(bodies_that_touch_keep_their_own_displacements) {
  const auto pair = [](int cells) {
    TetrahedronMesh right = of_body(box_mesh({cells, 2, 2}, {3, 3, 3}), BodyId{2});
    right.nodes.row(0).array() += 3.0;
    return joined(of_body(box_mesh({cells, 2, 2}, {3, 3, 3}), BodyId{1}), right, 10);
  };
  const TetrahedronMesh old_mesh = pair(2), new_mesh = pair(3);
  const auto sliding = [](const TetrahedronMesh& mesh) {
    Eigen::VectorXd values = Eigen::VectorXd::Constant(mesh.unknowns(), 1.0);
    values.tail(mesh.unknowns() / 2).setConstant(-1.0);  // the second body's nodes come last
    return values;
  };

  const Eigen::VectorXd carried = carried_displacement(old_mesh, sliding(old_mesh), new_mesh);

  BOOST_TEST((carried - sliding(new_mesh)).cwiseAbs().maxCoeff() < 1e-12);
  // Of a body that the old mesh has not, there is nothing to carry.
  const TetrahedronMesh stranger = of_body(box_mesh({1, 1, 1}, {3, 3, 3}), BodyId{3});
  BOOST_TEST(carried_displacement(old_mesh, sliding(old_mesh), stranger).isZero(0.0));
}

BOOST_AUTO_TEST_CASE(what_is_no_displacement_of_the_mesh_is_refused) {
  const TetrahedronMesh mesh = box_mesh({1, 1, 1}, {1, 1, 1});
  Eigen::MatrixXd displacement = Eigen::MatrixXd::Zero(mesh.unknowns() - 3, 1);
  BOOST_TEST(refused([&] { carried_displacement(mesh, displacement, mesh); }, "on a mesh of"));
  displacement.setZero(mesh.unknowns(), 1);
  displacement(4) = std::numeric_limits<double>::quiet_NaN();
  BOOST_TEST(refused([&] { carried_displacement(mesh, displacement, mesh); }, "not finite"));
}

BOOST_AUTO_TEST_SUITE_END()
