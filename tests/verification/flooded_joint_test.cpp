// SPDX-License-Identifier: GPL-3.0-or-later
// Two blocks and a screw with nothing between them: what the screw carries before a fluid lifts one
// off the other, and after.
#include <boost/test/unit_test.hpp>

#include "solver/loads/loads.h"
#include "tests/support/joined_blocks.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using namespace testing;

constexpr double low = 12.0, high = 8.0, area = 80.0;   // heights [mm], where they meet [mm^2]
constexpr double hollow = 40.0;                         // on which the fluid pushes anyway [mm^2]
constexpr double E = 2000.0, k_screw = 2000.0;          // [MPa], [N/mm]
constexpr double k_blocks = E * area / (low + high);    // [N/mm]
constexpr double Phi = k_screw / (k_screw + k_blocks);  // loads act at the far faces
constexpr double preload = 300.0;                       // [N]
/// At which the blocks press on each other as little as the fluid.
constexpr double opens = preload / (area + (1.0 - Phi) * hollow);

/// The far faces are head and thread and take the hollow's thrust, so that stress is even; the
/// fluid stands at one side of the blocks.
JointSolution under(double pressure) {
  const auto upper = block_mesh({3, 2, 2}, [](const Eigen::Vector3d& u) {
    return Eigen::Vector3d(10.0 * u.x(), 8.0 * u.y(), low + high * u.z());
  });
  const auto mesh = two_bodies(box_mesh({2, 3, 2}, {10.0, 8.0, low}), upper);
  const auto material = elastic_material(isotropic(E, 0.0));
  const auto field =
      uniform_field(mesh, {material, material}, {Frame::Identity(), Frame::Identity()});
  StaticSolver solver(mesh, {}, {.method = SolverMethod::direct});
  solver.set_material(field);
  const FaceId top = of_second(zeta_high);
  JointSolver joint(
      mesh, solver,
      {{pair_between(mesh, field, {zeta_high}, {of_second(zeta_low)}, Unilateral{}, 0.1)},
       {{"screw", area_motion(mesh, {top}, {}, "head"), area_motion(mesh, {zeta_low}, {}, "thread"),
         Eigen::Vector3d::UnitZ(), k_screw, 1000.0}}},
      {.penetration = 1e-8});
  const auto start =
      joint.solve({Eigen::VectorXd::Zero(mesh.unknowns()), {{true, preload}}, {}, {}});
  const auto even = [&](FaceId face, double push) {
    return traction_load(mesh, {face}, [push](const Eigen::Vector3d&) {
      return Eigen::Vector3d(0.0, 0.0, push / area);
    });
  };
  const double thrust = pressure * hollow;
  return joint.solve({even(top, thrust) + even(zeta_low, -thrust),
                      {locked(start.screws[0])},
                      {{pressure, nodes_on(mesh, {xi_low, of_second(xi_low)})}},
                      {}},
                     &start);
}

void check_force(const std::string& id, const std::string& when, double target, double obtained) {
  check({Chapter::contact, id,
         "two blocks of 80 mm^2 clamped with 300 N round a hollow of 40 mm^2, " + when +
             ": force of the screw",
         "exact: statics of a bolted joint, springs in parallel (handbook form)", target,
         fraction(1e-6, "ends of Newton's iteration and of augmentation")},
        obtained);
}

BOOST_AUTO_TEST_SUITE(flooded_joint)

BOOST_AUTO_TEST_CASE(a_fluid_pushes_on_the_hollow_until_it_presses_more_than_the_faces_do) {
  const double before = 0.99 * opens;

  const auto dry = under(before);

  BOOST_TEST(dry.pairs[0].fluid_pressure.maxCoeff() == 0.0);
  check_force("flooded before", "0.99 of the pressure that parts them",
              preload + Phi * before * hollow, dry.screws[0].force);
}

BOOST_AUTO_TEST_CASE(then_on_all_that_it_wets) {
  const double barely = 1.01 * opens, after = 1.5 * opens;

  const auto flooded = under(after);

  BOOST_TEST(under(barely).pairs[0].fluid_pressure.minCoeff() == barely);
  BOOST_TEST(flooded.pairs[0].fluid_pressure.minCoeff() == after);
  check_force("flooded after", "1.5 times the pressure that parts them", after * (hollow + area),
              flooded.screws[0].force);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
