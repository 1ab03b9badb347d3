// SPDX-License-Identifier: GPL-3.0-or-later
// A screw, a gasket and the bodies that it clamps, warmed: what one outgrows the others by, over
// the give of all of them in a row (mechanics of materials: bolt and sleeve of different
// expansion), F = dT (a_1 - a_2) L / (d_S + d_P).
#include <boost/test/unit_test.hpp>

#include "cases/loads/joint_states.h"
#include "tests/support/joined_blocks.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

constexpr double low = 12.0, high = 8.0, gasket = 2.0;                    // heights [mm]
constexpr double area = 10.0 * 8.0;                                       // [mm^2]
constexpr double E = 2000.0, E_gasket = 20.0, k_screw = 30000.0;          // [MPa], [MPa], [N/mm]
constexpr double of_plastic = 7e-5, of_steel = 1.2e-5, of_rubber = 2e-4;  // expansions [1/K]
constexpr double preload = 300.0, warmer = 40.0;                          // [N], [K]
// Ends of a Newton iteration and of the linear solver.
constexpr double solved = 1e-6;

/// Two blocks with a gasket between them; head and thread are the whole of their far ends, so that
/// stress is even.
struct ClampedBlocks {
  TetrahedronMesh mesh = blocks();
  MaterialField field =
      uniform_field(mesh, {plastic(), plastic()}, {Frame::Identity(), Frame::Identity()});
  StaticSolver solver{mesh, {}, {.method = SolverMethod::direct}};
  JoinedBodies joined;

  /// @param change  by node [K].
  explicit ClampedBlocks(const Eigen::VectorXd& change) {
    solver.set_material(field);
    joined.joint.pairs = {pair_between(mesh, field, {zeta_high}, {of_second(zeta_low)},
                                       Bedding{.modulus = E_gasket, .thickness = gasket},
                                       2.0 * gasket)};
    joined.joint.screws = {{"screw", area_motion(mesh, {of_second(zeta_high)}, {}, "head"),
                            area_motion(mesh, {zeta_low}, {}, "thread"), Eigen::Vector3d::UnitZ(),
                            k_screw, 1000.0}};
    JoinedScrews group{};
    group.count = 1;
    group.preload = {preload, preload, preload};
    group.kept = 1.0;
    group.expansion = of_steel * (low + gasket + high);
    joined.screws = {group};
    joined.gasket_growth = {of_rubber * gasket};
    ElementaryLoad heat;
    heat.temperature_change = change;
    heat.nodal_forces = thermal_load(mesh, field, change);
    joined.acting = {heat};
    joined.states = {{"tightened", "tightened", PreloadLevel::nominal, {0.0}},
                     {"warm", "warm", PreloadLevel::nominal, {1.0}, 0}};
  }

  static TetrahedronMesh blocks() {
    return two_bodies(block({2, 2, 2}, 0.0, low), block({3, 2, 2}, low + gasket, high));
  }
  static TetrahedronMesh block(const std::array<int, 3>& cells, double from, double height) {
    return block_mesh(cells, [=](const Eigen::Vector3d& s) {
      return Eigen::Vector3d(10.0 * s.x(), 8.0 * s.y(), from + height * s.z());
    });
  }
  static SolidMaterial plastic() {
    return {isotropic(E, 0.35), Eigen::Vector3d::Constant(of_plastic), 1e-9,
            LayeredStrength{1.0, 1.0, 1.0, 1.0, 1.0}};
  }
  double force() { return solve_states(solver, mesh, joined, {true, true})[1].screws[0].force; }
};

/// Of screw, blocks and gasket [mm/N].
constexpr double give = 1.0 / k_screw + (low + high) / (E * area) + gasket / (E_gasket * area);

}  // namespace

BOOST_AUTO_TEST_SUITE(warmed_joint)

BOOST_AUTO_TEST_CASE(plastic_and_rubber_outgrow_a_locked_screw) {
  const TetrahedronMesh mesh = ClampedBlocks::blocks();
  ClampedBlocks clamped(Eigen::VectorXd::Constant(mesh.node_count(), warmer));

  const double outgrown =
      warmer * (of_plastic * (low + high) + of_rubber * gasket - of_steel * (low + gasket + high));
  BOOST_TEST(clamped.force() == preload + outgrown / give, tolerance(solved));
}

BOOST_AUTO_TEST_CASE(cold_takes_preload_away) {
  const TetrahedronMesh mesh = ClampedBlocks::blocks();
  ClampedBlocks clamped(Eigen::VectorXd::Constant(mesh.node_count(), -warmer));

  const double outgrown =
      warmer * (of_plastic * (low + high) + of_rubber * gasket - of_steel * (low + gasket + high));
  BOOST_TEST(clamped.force() == preload - outgrown / give, tolerance(solved));
}

BOOST_AUTO_TEST_CASE(a_drop_from_head_to_thread_counts_where_each_part_lies) {
  const TetrahedronMesh mesh = ClampedBlocks::blocks();
  constexpr double length = low + gasket + high;
  // Linear in z: free of stress in each block, whose ends bow alike and stay parallel.
  ClampedBlocks clamped(warmer / length * mesh.nodes.row(2).transpose());

  const double blocks = 0.5 * low * low + high * (length - 0.5 * high);
  const double outgrown =
      warmer / length * (of_plastic * blocks + of_rubber * gasket * (low + 0.5 * gasket)) -
      0.5 * warmer * of_steel * length;
  BOOST_TEST(clamped.force() == preload + outgrown / give, tolerance(solved));
}

BOOST_AUTO_TEST_SUITE_END()
