// SPDX-License-Identifier: GPL-3.0-or-later
// Fluid between a lid and the rim of a bore of 27 mm: where it comes, and how it lifts the lid.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "tests/solver/example_materials.h"
#include "tests/support/joined_blocks.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

constexpr double bore = 13.5, seal = 16.75, beyond_seal = 20.0, rim = 23.0;  // radii [mm]
constexpr double fluid = 0.4;                                                // [MPa]

/// A quarter of a ring, three cells to each zone of the joint where asked for.
TetrahedronMesh ring(double bottom, int cells_round, bool by_zones) {
  const std::array<double, 4> radii{bore, seal, beyond_seal, rim};
  return block_mesh({by_zones ? 9 : 7, cells_round, 1}, [=](const Eigen::Vector3d& u) {
    const int zone = std::min(static_cast<int>(3.0 * u.x() + 1e-9), 2);
    const double r = by_zones ? radii[zone] + (3.0 * u.x() - zone) * (radii[zone + 1] - radii[zone])
                              : bore + u.x() * (rim - bore);
    const double a = 0.5 * std::numbers::pi * u.y();
    return Eigen::Vector3d(r * std::cos(a), r * std::sin(a), bottom + 4.0 * u.z());
  });
}

/// The rim of the bowl and the lid on it, both held outside; between them a bare gap, a gasket
/// under `squeeze`, a bare gap.
struct Lid {
  TetrahedronMesh mesh = two_bodies(ring(0.0, 9, true), ring(4.0, 7, false));
  MaterialField field =
      uniform_field(mesh, {plain_solid(), plain_solid()}, {Frame::Identity(), Frame::Identity()});
  StaticSolver solver{mesh,
                      constraints_of(mesh, {{"far", {zeta_low, of_second(zeta_high)}, Hold::all}}),
                      {.method = SolverMethod::direct}};

  InterfacePair zone(double from, double to, const InterfaceLaw& law, double clearance) const {
    std::vector<int> triangles;
    for (int t : triangles_on(mesh, {zeta_high}, "rim")) {
      double r = 0.0;
      for (int c = 0; c < 3; ++c) r += mesh.nodes.col(mesh.triangles(c, t)).head<2>().norm() / 3.0;
      if (r > from && r < to) triangles.push_back(t);
    }
    InterfacePair pair{"zone", law, {}, false, clearance};
    pair.points =
        overlap_faces(mesh, triangles, triangles_on(mesh, {of_second(zeta_low)}, "lid"), 0.1)
            .points;
    set_contact_stiffness(mesh, field, pair.points);
    return pair;
  }

  JointSolution under_pressure(double squeeze) {
    solver.set_material(field);
    const Bedding gasket{.modulus = 5.0, .thickness = 1.0};
    JointSolver joint(
        mesh, solver,
        {{zone(bore, seal, Unilateral{}, 0.01), zone(seal, beyond_seal, gasket, -squeeze),
          zone(beyond_seal, rim, Unilateral{}, 0.01)},
         {}});
    JointLoad load{Eigen::VectorXd::Zero(mesh.unknowns()), {}, {}, {}};
    load.fluids = {{fluid, nodes_on(mesh, {xi_low, of_second(xi_low)})}};
    return joint.solve(load);
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(fluid_in_joint)

BOOST_AUTO_TEST_CASE(fluid_comes_as_far_as_the_gasket_and_no_farther) {
  Lid lid;

  const auto solution = lid.under_pressure(0.2);  // 1 MPa on the gasket

  BOOST_TEST(solution.pairs[0].fluid_pressure.minCoeff() == fluid);
  BOOST_TEST(solution.pairs[1].fluid_pressure.maxCoeff() == 0.0);
  BOOST_TEST(solution.pairs[2].fluid_pressure.maxCoeff() == 0.0);  // open, but not connected
  BOOST_TEST(solution.pairs[1].pressure.minCoeff() > fluid);
}

BOOST_AUTO_TEST_CASE(a_bore_of_27_sealed_at_33_5_carries_54_per_cent_more_thrust) {
  Lid lid;

  const auto solution = lid.under_pressure(0.2);

  // What the lid's far side carries more than the joint's own pressure is the fluid's.
  const double held =
      -resultant(lid.mesh, lid.solver.internal_forces(solution.displacement).col(0)).force.z();
  BOOST_TEST(std::abs(held) < 1e-9);  // both far sides together
  Eigen::VectorXd on_lid = lid.solver.internal_forces(solution.displacement).col(0);
  for (int node : nodes_on(lid.mesh, {of_second(zeta_high)}))
    on_lid.segment<3>(3 * Eigen::Index{node}).setZero();
  for (int node : nodes_on(lid.mesh, {zeta_low, zeta_high, xi_low, xi_high, eta_low, eta_high}))
    on_lid.segment<3>(3 * Eigen::Index{node}).setZero();
  const double lift = resultant(lid.mesh, on_lid).force.z() - solution.pairs[1].force;
  const double on_bore = fluid * 0.25 * std::numbers::pi * bore * bore;
  // Handbook arithmetic: (33.5 / 27)^2 = 1.54. The rest is the ring's quadratic sides.
  BOOST_TEST((on_bore + lift) / on_bore == 1.539, tolerance(2e-3));
}

BOOST_AUTO_TEST_CASE(fluid_passes_a_gasket_that_presses_less_than_it) {
  Lid lid;

  const auto solution = lid.under_pressure(0.05);  // 0.25 MPa on the gasket

  for (const auto& pair : solution.pairs) BOOST_TEST(pair.fluid_pressure.minCoeff() == fluid);
}

BOOST_AUTO_TEST_SUITE_END()
