// SPDX-License-Identifier: GPL-3.0-or-later
// Blocks pressed together: against uniform stress by hand.
#include "solver/interface/joint_solver.h"

#include <boost/test/unit_test.hpp>

#include "solver/loads/loads.h"
#include "tests/solver/example_materials.h"
#include "tests/support/joined_blocks.h"
#include "tests/support/near.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

constexpr double height = 5.0;  // of either block [mm]
constexpr double E = 2000.0;    // of plain_solid [MPa]

/// One block on another of the same plan, with other cells; far faces held along z, sliding.
struct TwoBlocks {
  TetrahedronMesh mesh = two_bodies(box_mesh({3, 2, 2}, {10.0, 8.0, height}), upper());
  MaterialField field =
      uniform_field(mesh, {plain_solid(), plain_solid()}, {Frame::Identity(), Frame::Identity()});
  StaticSolver solver{mesh, constraints_of(mesh, supports()), {.method = SolverMethod::direct}};

  TwoBlocks() { solver.set_material(field); }

  static TetrahedronMesh upper() {
    return block_mesh({4, 3, 2}, [](const Eigen::Vector3d& u) {
      return Eigen::Vector3d(10.0 * u.x(), 8.0 * u.y(), height + height * u.z());
    });
  }
  static std::vector<Support> supports() {
    std::vector<Support> held;
    for (FaceId face :
         {xi_low, eta_low, zeta_low, of_second(xi_low), of_second(eta_low), of_second(zeta_high)})
      held.push_back({"symmetry", {face}, Hold::normal});
    return held;
  }
  InterfacePair pair(const InterfaceLaw& law) const {
    return pair_between(mesh, field, {zeta_high}, {of_second(zeta_low)}, law, 0.1);
  }
  JointLoad no_load() const { return {Eigen::VectorXd::Zero(mesh.unknowns()), {}, {}, {}}; }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(joint_solver)

BOOST_AUTO_TEST_CASE(blocks_that_are_too_long_press_on_each_other_evenly) {
  TwoBlocks blocks;
  auto pair = blocks.pair(Unilateral{});
  pair.clearance = -0.01;
  JointSolver joint(blocks.mesh, blocks.solver, {{pair}, {}}, {.penetration = 1e-7});

  const auto solution = joint.solve(blocks.no_load());

  const double pressure = E * 0.01 / (2.0 * height);
  const auto& state = solution.pairs[0];
  BOOST_TEST(
      near(state.pressure, Eigen::VectorXd::Constant(state.pressure.size(), pressure), 1e-6));
  BOOST_TEST(state.open == 0);
}

BOOST_AUTO_TEST_CASE(a_missing_load_does_not_hide_behind_what_the_joint_pushes_with) {
  TwoBlocks blocks;
  StaticSolver loose(blocks.mesh, {}, {.method = SolverMethod::direct});
  loose.set_material(blocks.field);
  Bedding rubber{10.0, 2.0};
  rubber.shear_modulus = 3.0;
  auto pair = blocks.pair(rubber);
  pair.clearance = -0.5;  // pushes with 200 N
  JointSolver joint(blocks.mesh, loose, {{pair}, {}});
  JointLoad load = blocks.no_load();
  load.forces =
      spread_force(blocks.mesh, {of_second(zeta_high)}, {0.0, 0.0, -0.2}, {0.0, 0.0, 0.0});

  BOOST_CHECK_EXCEPTION(joint.solve(load), std::invalid_argument, [](const auto& error) {
    return std::string(error.what()).find("what acts on the joint from outside") == 0;
  });
}

// Nothing holds the two but a thick bonded gasket: turned as one they must not resist.
BOOST_AUTO_TEST_CASE(two_free_blocks_with_a_bonded_gasket_are_pulled_evenly) {
  TetrahedronMesh mesh = two_bodies(
      box_mesh({3, 2, 2}, {10.0, 8.0, height}), block_mesh({4, 3, 2}, [](const Eigen::Vector3d& u) {
        return Eigen::Vector3d(10.0 * u.x(), 8.0 * u.y(), height + 2.0 + height * u.z());
      }));
  MaterialField field =
      uniform_field(mesh, {plain_solid(), plain_solid()}, {Frame::Identity(), Frame::Identity()});
  StaticSolver solver{mesh, {}, {.method = SolverMethod::direct}};
  solver.set_material(field);
  Bedding rubber{10.0, 2.0};
  rubber.shear_modulus = 3.0;
  JointSolver joint(
      mesh, solver,
      {{pair_between(mesh, field, {zeta_high}, {of_second(zeta_low)}, rubber, 2.5)}, {}});
  JointLoad load{Eigen::VectorXd::Zero(mesh.unknowns()), {}, {}, {}};
  load.forces = spread_force(mesh, {zeta_low}, {0.0, 0.0, 8.0}, {0.0, 0.0, 0.0}) +
                spread_force(mesh, {of_second(zeta_high)}, {0.0, 0.0, -8.0}, {0.0, 0.0, 0.0});

  const auto solution = joint.solve(load);

  // 8 N on 80 mm^2.
  BOOST_TEST(near(solution.pairs[0].pressure,
                  Eigen::VectorXd::Constant(solution.pairs[0].pressure.size(), 0.1), 1e-4));
}

BOOST_AUTO_TEST_CASE(blocks_with_a_gap_do_not_touch) {
  TwoBlocks blocks;
  auto pair = blocks.pair(Unilateral{});
  pair.clearance = 0.01;
  JointSolver joint(blocks.mesh, blocks.solver, {{pair}, {}});

  const auto solution = joint.solve(blocks.no_load());

  BOOST_TEST(solution.pairs[0].open == solution.pairs[0].pressure.size());
  BOOST_TEST(solution.displacement.norm() < 1e-12);
}

BOOST_AUTO_TEST_SUITE_END()
