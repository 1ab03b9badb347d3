// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/stress_recovery.h"

#include <boost/test/unit_test.hpp>
#include <limits>
#include <set>

#include "solver/loads/loads.h"
#include "solver/static_solver.h"
#include "tests/solver/example_materials.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

/// A bar of 4 x 2 x 2 mm whose halves along x are bodies 1 and 2.
TetrahedronMesh two_body_bar() {
  return block_mesh(
      {4, 2, 2},
      [](const Eigen::Vector3d& u) {
        return u.cwiseProduct(Eigen::Vector3d(4.0, 2.0, 2.0)).eval();
      },
      [](const Eigen::Vector3d& u) { return BodyId{u.x() < 0.5 ? 1 : 2}; });
}

/// No contraction, so that two moduli in series are in uniaxial stress exactly.
SolidMaterial cork(double E, double expansion) {
  return {isotropic(E, 0.0), Eigen::Vector3d::Constant(expansion), 1e-9, DuctileStrength{1.0}};
}

}  // namespace

BOOST_AUTO_TEST_SUITE(stress_recovery)

BOOST_AUTO_TEST_CASE(a_node_between_two_bodies_has_a_stress_point_in_each) {
  const auto mesh = two_body_bar();

  const auto points = stress_points(mesh);

  // 5 x 5 nodes on the interface.
  BOOST_TEST(std::ssize(points) == mesh.node_count() + 25);
  std::set<std::pair<int, int>> seen;
  for (std::size_t p = 0; p < points.size(); ++p) {
    const auto& [node, body, tetrahedron] = points[p];
    BOOST_TEST(seen.insert({number(body), node}).second);
    BOOST_TEST((mesh.body_of_tetrahedron[tetrahedron] == body));
    BOOST_TEST((mesh.tetrahedra.col(tetrahedron).array() == node).any());
    if (p > 0)
      BOOST_TEST((std::pair(points[p - 1].body, points[p - 1].node) < std::pair(body, node)));
  }
}

BOOST_AUTO_TEST_CASE(stress_jumps_between_bodies_and_is_not_smeared) {
  // Stretched by a prescribed strain along y, where both halves strain alike: 10 and 30 MPa.
  const auto mesh = two_body_bar();
  const auto field = uniform_field(mesh, {cork(1000.0, 0.0), cork(3000.0, 0.0)},
                                   {Frame::Identity(), Frame::Identity()});
  Eigen::VectorXd stretched = Eigen::VectorXd::Zero(mesh.unknowns());
  for (Eigen::Index i = 0; i < mesh.node_count(); ++i)
    stretched[3 * i + 1] = 0.01 * mesh.nodes(1, i);

  const auto points = stress_points(mesh);
  const auto stress = recover_stress(mesh, field, points, stretched);

  for (std::size_t p = 0; p < points.size(); ++p)
    BOOST_TEST(stress(1, p) == (points[p].body == BodyId{1} ? 10.0 : 30.0), tolerance(1e-12));
  // Half sigma epsilon over 8 mm^3 each.
  BOOST_TEST(strain_energy(mesh, field, stretched) == 0.5 * 0.01 * (10.0 + 30.0) * 8.0,
             tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(two_materials_in_series_between_walls_share_the_thermal_stress) {
  // Bar of two halves, ends held, warmed: sigma = -(a1 + a2) dT / (1/E1 + 1/E2), nu = 0.
  const auto mesh = two_body_bar();
  const auto field = uniform_field(mesh, {cork(1000.0, 1e-4), cork(3000.0, 2e-5)},
                                   {Frame::Identity(), Frame::Identity()});
  const Eigen::VectorXd warmer = Eigen::VectorXd::Constant(mesh.node_count(), 50.0);
  // Cross expansion is free in each body only if nothing ties them across: take it off.
  auto axial = field;
  for (auto& material : axial.materials) material.thermal_expansion.tail<2>().setZero();
  StaticSolver solver(mesh, constraints_of(mesh, {{"walls", {xi_low, xi_high}, Hold::normal}}));
  solver.set_material(axial);

  const Eigen::VectorXd u = solver.solve(thermal_load(mesh, axial, warmer));
  const auto stress = recover_stress(mesh, axial, stress_points(mesh), u, warmer);

  const double expected = -(1e-4 + 2e-5) * 50.0 / (1.0 / 1000.0 + 1.0 / 3000.0);
  for (Eigen::Index p = 0; p < stress.cols(); ++p) {
    BOOST_TEST(stress(0, p) == expected, tolerance(1e-10));
    BOOST_TEST(stress.col(p).tail<5>().norm() < 1e-10);
  }
  BOOST_TEST(strain_energy(mesh, axial, u, warmer) ==
                 0.5 * expected * expected * (8.0 / 1000.0 + 8.0 / 3000.0),
             tolerance(1e-10));
}

BOOST_AUTO_TEST_CASE(bending_stress_linear_in_position_is_recovered_exactly) {
  // Pure bending of a straight bar: u = k (x z, 0, -x^2/2) gives sigma_xx = E k z with nu = 0.
  const auto mesh = box_mesh({3, 1, 2}, {6.0, 1.0, 2.0});
  const auto field = uniform_field(mesh, {cork(2000.0, 0.0)}, {Frame::Identity()});
  const double k = 1e-3;
  Eigen::VectorXd bent = Eigen::VectorXd::Zero(mesh.unknowns());
  for (Eigen::Index i = 0; i < mesh.node_count(); ++i) {
    const Eigen::Vector3d x = mesh.nodes.col(i);
    bent.segment<3>(3 * i) = k * Eigen::Vector3d(x.x() * x.z(), 0.0, -0.5 * x.x() * x.x());
  }

  const auto stress = recover_stress(mesh, field, stress_points(mesh), bent);

  BOOST_TEST(near(stress.row(0), 2000.0 * k * mesh.nodes.row(2), 1e-12));
  BOOST_TEST(stress.bottomRows(5).cwiseAbs().maxCoeff() < 1e-12 * 2000.0 * k * 6.0);
}

BOOST_AUTO_TEST_CASE(a_displacement_that_is_not_finite_or_does_not_fit_is_refused) {
  const auto mesh = two_body_bar();
  const auto field = uniform_field(mesh, {cork(1000.0, 0.0), cork(3000.0, 0.0)},
                                   {Frame::Identity(), Frame::Identity()});
  Eigen::VectorXd bad = Eigen::VectorXd::Zero(mesh.unknowns());
  bad[0] = std::numeric_limits<double>::quiet_NaN();

  BOOST_CHECK_THROW(strain_energy(mesh, field, bad), std::invalid_argument);
  BOOST_CHECK_THROW(strain_energy(mesh, field, Eigen::VectorXd::Zero(4)), std::invalid_argument);
  BOOST_CHECK_THROW(
      strain_energy(mesh, field, Eigen::VectorXd::Zero(mesh.unknowns()), Eigen::VectorXd::Zero(1)),
      std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
