// SPDX-License-Identifier: GPL-3.0-or-later
#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/elements/element_at_points.h"
#include "solver/loads/loads.h"
#include "solver/stress/stress_recovery.h"
#include "tests/solver/example_materials.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

/// Quadratic in each direction, so that the mesh is this shape exactly:
/// x = 4 xi + eta^2, y = 3 eta + zeta^2, z = 2 zeta; its volume is 24 since the map is a shear.
TetrahedronMesh sheared_block() {
  return block_mesh({2, 3, 2}, [](const Eigen::Vector3d& u) {
    return Eigen::Vector3d(4.0 * u.x() + u.y() * u.y(), 3.0 * u.y() + u.z() * u.z(), 2.0 * u.z());
  });
}

}  // namespace

BOOST_AUTO_TEST_SUITE(mass_and_rigid_motion)

BOOST_AUTO_TEST_CASE(masses_are_exact_on_curved_elements_body_by_body) {
  auto mesh = sheared_block();
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count() / 2; ++t)
    mesh.body_of_tetrahedron[t] = BodyId{2};
  auto heavy = plain_solid();
  heavy.density = 7.8e-9;

  const auto masses = body_masses(
      mesh, uniform_field(mesh, {plain_solid(), heavy}, {Frame::Identity(), Frame::Identity()}));

  BOOST_TEST(masses.size() == 2U);
  BOOST_TEST(masses[0] == 12.0 * plain_solid().density, tolerance(1e-12));  // round-off
  BOOST_TEST(masses[1] == 12.0 * 7.8e-9, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(gravity_has_the_resultant_weight_through_the_centre_of_mass) {
  const auto mesh = sheared_block();
  const auto field = uniform_field(mesh, {plain_solid()}, {Frame::Identity()});
  const Eigen::Vector3d gravity(0.0, 0.0, -9810.0);
  const double mass = 24.0 * plain_solid().density;
  const Eigen::Vector3d centre(2.0 + 1.0 / 3.0, 1.5 + 1.0 / 3.0, 1.0);

  const auto weight = resultant(mesh, body_load(mesh, field, gravity));

  BOOST_TEST(near(weight.force, mass * gravity, 1e-12));
  BOOST_TEST(near(weight.moment, centre.cross(mass * gravity), 1e-12));
}

BOOST_AUTO_TEST_CASE(a_rigid_motion_stores_no_energy_and_strains_nothing) {
  const auto mesh = sheared_block();
  const auto field = uniform_field(mesh, {nine_constant_solid()}, {skew_frame()});
  const Eigen::Vector3d shift(0.3, -0.2, 0.5), turn(1e-2, 2e-2, -3e-2);
  Eigen::VectorXd rigid(mesh.unknowns()), stretched(mesh.unknowns());
  for (Eigen::Index i = 0; i < mesh.node_count(); ++i) {
    rigid.segment<3>(3 * i) = shift + turn.cross(mesh.nodes.col(i));
    stretched.segment<3>(3 * i) = turn.cwiseProduct(mesh.nodes.col(i));
  }

  const double energy = strain_energy(mesh, field, rigid);
  const auto stress = recover_stress(mesh, field, stress_points(mesh), rigid);

  // Against a motion of the same size that does strain.
  BOOST_TEST(strain_energy(mesh, field, stretched) > 1.0);
  BOOST_TEST(std::abs(energy) < 1e-20 * strain_energy(mesh, field, stretched));
  BOOST_TEST(stress.allFinite());
  BOOST_TEST(stress.cwiseAbs().maxCoeff() < 1e-10);  // round-off of 60 MPa
}

BOOST_AUTO_TEST_CASE(an_inverted_element_is_refused_with_its_place) {
  auto mesh = box_mesh({1, 1, 1}, {1.0, 1.0, 1.0});
  std::swap(mesh.tetrahedra(0, 3), mesh.tetrahedra(1, 3));
  ElementAtPoints element(stiffness_rule());

  BOOST_CHECK_EXCEPTION(element.move_to(mesh, 3), std::invalid_argument, [](const auto& error) {
    const std::string message = error.what();
    return message.find("element 3 near (") == 0 &&
           message.find("is inverted: its Jacobian determinant is") != std::string::npos;
  });
}

BOOST_AUTO_TEST_SUITE_END()
