// SPDX-License-Identifier: GPL-3.0-or-later
// A screw between the ends of a block: rigid motions and plain stretches by hand.
#include "solver/interface/elastic_screw.h"

#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <numbers>

#include "solver/interface/head_pressure.h"
#include "tests/support/refusal.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

/// Along z through a block of 6 x 4 x 10 mm, its head on part of the top.
struct ScrewedBlock {
  TetrahedronMesh mesh = box_mesh({3, 2, 2}, {6.0, 4.0, 10.0});
  ElasticScrew screw{"screw",
                     area_motion(
                         mesh, {zeta_high},
                         [](const Eigen::Vector3d& x) { return x.x() <= 4.0 ? 1.0 : 0.0; }, "head"),
                     area_motion(mesh, {zeta_low}, {}, "thread"),
                     Eigen::Vector3d::UnitZ(),
                     500.0,
                     20.0};

  Eigen::VectorXd field(const std::function<Eigen::Vector3d(const Eigen::Vector3d&)>& u) const {
    Eigen::VectorXd all(mesh.unknowns());
    for (Eigen::Index n = 0; n < mesh.node_count(); ++n)
      all.segment<3>(3 * n) = u(mesh.nodes.col(n));
    return all;
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(elastic_screw)

BOOST_AUTO_TEST_CASE(a_seat_has_the_area_and_the_mean_motion_of_its_part_of_the_face) {
  const ScrewedBlock block;
  const auto u = block.field([](const auto& x) { return Eigen::Vector3d(0.0, 0.0, x.x()); });

  BOOST_TEST(block.screw.head.area == 16.0, tolerance(2e-2));  // its edge cuts elements
  BOOST_TEST(block.screw.head.displacement(u).z() == block.screw.head.centre.x(), tolerance(1e-12));
  BOOST_TEST(block.screw.thread.displacement(u).z() == 3.0, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_head_presses_half_evenly_half_as_a_stiff_punch) {
  const auto mesh = box_mesh({4, 4, 1}, {8.0, 8.0, 2.0});
  const Eigen::Vector3d middle(4.0, 4.0, 0.0);
  constexpr double radius = 3.0;
  const auto seat = area_motion(
      mesh, {zeta_high}, pressure_under_head(middle, Eigen::Vector3d::UnitZ(), radius), "head");
  Eigen::VectorXd bowl = Eigen::VectorXd::Zero(mesh.unknowns());
  for (Eigen::Index n = 0; n < mesh.node_count(); ++n)
    bowl[3 * n + 2] = (mesh.nodes.col(n) - middle).head<2>().squaredNorm();

  // Mean of r^2 under a flat punch: 2/3 R^2 (Johnson, Contact Mechanics); evenly pressed: 1/2. One
  // per cent for the bounded pressure and the ragged rim.
  BOOST_TEST(seat.displacement(bowl).z() == 0.5 * (2.0 / 3.0 + 0.5) * radius * radius,
             tolerance(1e-2));
  BOOST_TEST(seat.area == std::numbers::pi * radius * radius, tolerance(1e-2));
}

BOOST_AUTO_TEST_CASE(a_rigid_motion_strains_no_screw) {
  const ScrewedBlock block;
  const Eigen::Vector3d turn(0.3, -0.2, 0.5);
  const auto u = block.field(
      [&](const auto& x) { return Eigen::Vector3d(turn.cross(x) + Eigen::Vector3d(1, 2, 3)); });

  for (const auto& shares : screw_motions(block.screw))
    BOOST_TEST(std::abs(along(shares, u)) < 1e-11);
}

BOOST_AUTO_TEST_CASE(stretching_and_shearing_the_block_moves_its_screw) {
  const ScrewedBlock block;
  const auto motions = screw_motions(block.screw);
  const auto stretched =
      block.field([](const auto& x) { return Eigen::Vector3d(0.0, 0.0, 0.01 * x.z()); });
  const auto sheared =
      block.field([](const auto& x) { return Eigen::Vector3d(0.0, 0.02 * x.z(), 0.0); });

  BOOST_TEST(along(motions[0], stretched) == 0.1, tolerance(1e-10));
  // The seats stay flat and do not turn about x by this motion: all of it is the screw's.
  const Eigen::Vector2d lateral(along(motions[1], sheared), along(motions[2], sheared));
  BOOST_TEST(lateral.norm() == 0.2, tolerance(1e-10));
}

BOOST_AUTO_TEST_CASE(a_locked_screw_pulls_by_its_stretch_and_goes_slack) {
  const ScrewedBlock block;
  const ScrewCommand command{
      .tightening = false, .force = 100.0, .elongation = -0.1, .expansion = 0.02};

  BOOST_TEST(respond(block.screw, command, 0.0).force == 100.0 + 500.0 * 0.08, tolerance(1e-12));
  BOOST_TEST(respond(block.screw, command, 0.0).stiffness == 500.0);
  BOOST_TEST(respond(block.screw, command, -0.4).force == 0.0);
  BOOST_TEST(respond(block.screw, command, -0.4).stiffness == 0.0);
  BOOST_TEST(respond(block.screw, {true, 70.0}, 0.3).force == 70.0);
}

BOOST_AUTO_TEST_CASE(seats_beside_their_faces_and_screws_without_stiffness_are_refused) {
  const ScrewedBlock block;
  const auto nowhere = [](const Eigen::Vector3d&) { return 0.0; };
  auto soft = block.screw;
  soft.axial_stiffness = 0.0;

  BOOST_TEST(refused([&] { area_motion(block.mesh, {zeta_high}, nowhere, "screw 3"); }, "screw 3"));
  BOOST_TEST(refused([&] { require_sound(soft); }, "stiffness is 0"));
  BOOST_TEST(refused([&] { require_sound(ScrewCommand{true, -5.0}, block.screw); }, "-5"));
}

BOOST_AUTO_TEST_SUITE_END()
