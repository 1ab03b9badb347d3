// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/static_solver.h"

#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <limits>

#include "solver/loads/loads.h"
#include "solver/stress/stress_recovery.h"
#include "tests/solver/example_materials.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

TetrahedronMesh wavy_block() {
  return block_mesh({4, 3, 2}, [](const Eigen::Vector3d& u) {
    return Eigen::Vector3d(8.0 * u.x() + 0.2 * std::sin(5.0 * u.y()),
                           6.0 * u.y() + 0.2 * std::sin(4.0 * u.z()), 4.0 * u.z());
  });
}

MaterialField skew_field(const TetrahedronMesh& mesh) {
  return uniform_field(mesh, {nine_constant_solid()}, {skew_frame()});
}

Eigen::VectorXd push(const TetrahedronMesh& mesh, FaceId face, double pressure) {
  return pressure_load(mesh, {face}, [pressure](const auto&) { return pressure; });
}

/// Resultant of the reactions K u - f.
Resultant reactions(const TetrahedronMesh& mesh, const StaticSolver& solver,
                    const Eigen::VectorXd& u, const Eigen::VectorXd& load) {
  return resultant(mesh, solver.internal_forces(u) - load);
}

double size_of(const TetrahedronMesh& mesh, const Eigen::VectorXd& load) {
  return load.reshaped(3, mesh.node_count()).colwise().norm().sum();
}

template <class Error = std::invalid_argument, class Call>
void require_refused(const Call& call, const std::string& words) {
  BOOST_CHECK_EXCEPTION(call(), Error, [&](const auto& error) {
    BOOST_TEST_MESSAGE(error.what());
    return std::string(error.what()).find(words) != std::string::npos;
  });
}

}  // namespace

BOOST_AUTO_TEST_SUITE(static_solver)

BOOST_AUTO_TEST_CASE(reactions_balance_the_applied_load_in_force_and_moment) {
  const auto mesh = wavy_block();
  const auto constraints = constraints_of(mesh, {{"foot", {xi_low}, Hold::all}});
  StaticSolver solver(mesh, constraints);
  solver.set_material(skew_field(mesh));
  const auto load = push(mesh, zeta_high, 0.7);

  const Eigen::VectorXd u = solver.solve(load);

  const auto applied = resultant(mesh, load);
  const auto reacted = reactions(mesh, solver, u, load);
  BOOST_TEST(near(reacted.force, -applied.force, 1e-10));
  BOOST_TEST(near(reacted.moment, -applied.moment, 1e-10));
  for (const auto& constraint : constraints)
    BOOST_TEST(u.segment<3>(3 * constraint.node).norm() == 0.0);
  BOOST_TEST(solver.report().relative_residual < 1e-11);
  BOOST_TEST(solver.report().unknowns == mesh.unknowns() - 3 * std::ssize(constraints));
  BOOST_TEST(solver.report().method == "sparse Cholesky");
}

BOOST_AUTO_TEST_CASE(held_skew_directions_stay_and_free_ones_carry_no_reaction) {
  const auto mesh = wavy_block();
  const Eigen::Vector3d skew = Eigen::Vector3d(1.0, 2.0, -0.5).normalized();
  StaticSolver solver(mesh, constraints_of(mesh, {{"foot", {xi_low}, Hold::direction, skew},
                                                  {"back", {xi_high}, Hold::all}}));
  solver.set_material(skew_field(mesh));
  const auto load = push(mesh, zeta_high, 0.7);

  const Eigen::VectorXd u = solver.solve(load);

  const Eigen::VectorXd reaction = solver.internal_forces(u) - load;
  for (int node : nodes_on(mesh, {xi_low})) {
    BOOST_TEST(std::abs(skew.dot(u.segment<3>(3 * node))) < 1e-15);
    const Eigen::Vector3d r = reaction.segment<3>(3 * node);
    BOOST_TEST((r - skew * skew.dot(r)).norm() < 1e-10);
  }
}

BOOST_AUTO_TEST_CASE(the_result_is_the_same_to_the_last_bit_for_any_number_of_threads) {
  // Enough nodes for threads to be used.
  const auto mesh = box_mesh({12, 12, 6}, {8.0, 6.0, 4.0});
  const auto constraints = constraints_of(mesh, {{"foot", {xi_low}, Hold::all}});
  StaticSolver one(mesh, constraints, {.threads = 1}), three(mesh, constraints, {.threads = 3});
  one.set_material(skew_field(mesh));
  three.set_material(skew_field(mesh));
  const auto load = push(mesh, zeta_high, 0.7);

  const Eigen::VectorXd from_one = one.solve(load), from_three = three.solve(load);

  BOOST_TEST(from_one.norm() > 0.0);
  BOOST_TEST((from_one.array() == from_three.array()).all());
}

BOOST_AUTO_TEST_CASE(several_loads_at_once_give_what_each_gives_alone) {
  const auto mesh = wavy_block();
  StaticSolver solver(mesh, constraints_of(mesh, {{"foot", {xi_low}, Hold::all}}));
  solver.set_material(skew_field(mesh));
  Eigen::MatrixXd loads(mesh.unknowns(), 3);
  loads << push(mesh, zeta_high, 0.7), Eigen::VectorXd::Zero(mesh.unknowns()),
      push(mesh, eta_low, -2.0);

  const Eigen::MatrixXd together = solver.solve(loads);

  BOOST_TEST(near(together.col(0), solver.solve(loads.col(0)).col(0), 1e-12));
  BOOST_TEST(together.col(1).norm() == 0.0);
  BOOST_TEST(near(together.col(2), solver.solve(loads.col(2)).col(0), 1e-12));
}

BOOST_AUTO_TEST_CASE(another_material_on_the_same_solver_gives_what_a_new_solver_gives) {
  const auto mesh = wavy_block();
  const auto constraints = constraints_of(mesh, {{"foot", {xi_low}, Hold::all}});
  const auto load = push(mesh, zeta_high, 0.7);
  StaticSolver reused(mesh, constraints), fresh(mesh, constraints);

  reused.set_material(uniform_field(mesh, {plain_solid()}, {Frame::Identity()}));
  const Eigen::VectorXd plain = reused.solve(load);
  reused.set_material(skew_field(mesh));
  fresh.set_material(skew_field(mesh));

  BOOST_TEST((reused.solve(load).array() == fresh.solve(load).array()).all());
  BOOST_TEST((plain - fresh.solve(load)).norm() > 1e-3 * plain.norm());
}

BOOST_AUTO_TEST_CASE(a_free_body_under_balanced_load_strains_as_a_determinately_held_one) {
  const auto mesh = wavy_block();
  const auto field = skew_field(mesh);
  const Eigen::VectorXd load =
      pressure_load(mesh, {xi_low, xi_high, eta_low, eta_high, zeta_low, zeta_high},
                    [](const auto&) { return 0.7; });
  // Three nodes held in 3 + 2 + 1 directions.
  const int a = nearest_node(mesh, {0.0, 0.0, 0.0}), b = nearest_node(mesh, {8.0, 0.0, 0.0}),
            c = nearest_node(mesh, {0.0, 6.0, 0.0});
  const NodeConstraint pin{a, Eigen::Matrix3d::Identity()};
  const NodeConstraint rail{b,
                            Eigen::Matrix<double, 3, 2>(Eigen::Matrix3d::Identity().rightCols(2))};
  const NodeConstraint rest{c, Eigen::Vector3d::UnitZ()};
  StaticSolver held(mesh, {pin, rail, rest}), free(mesh, {});
  held.set_material(field);
  free.set_material(field);

  const Eigen::VectorXd u_held = held.solve(load), u_free = free.solve(load);

  const auto points = stress_points(mesh);
  BOOST_TEST(near(recover_stress(mesh, field, points, u_free),
                  recover_stress(mesh, field, points, u_held), 1e-10));
  BOOST_TEST(strain_energy(mesh, field, u_free) == strain_energy(mesh, field, u_held),
             tolerance(1e-10));
  // Held without reaction stress.
  const Eigen::VectorXd left_over = free.internal_forces(u_free) - load;
  BOOST_TEST(left_over.cwiseAbs().maxCoeff() < 1e-10 * load.cwiseAbs().maxCoeff());
  // And its displacement holds no rigid motion, weighted by mass.
  const Eigen::VectorXd momentum = mass_times(mesh, field, u_free);
  const double scale = size_of(mesh, momentum);
  BOOST_TEST(scale > 0.0);
  BOOST_TEST(resultant(mesh, momentum, {4.0, 3.0, 2.0}).force.norm() < 1e-12 * scale);
  BOOST_TEST(resultant(mesh, momentum, {4.0, 3.0, 2.0}).moment.norm() < 1e-11 * scale);
  BOOST_TEST(free.report().unbalanced_force_fraction < 1e-13);
}

BOOST_AUTO_TEST_CASE(a_small_unbalanced_rest_is_carried_by_inertia_and_reported) {
  const auto mesh = box_mesh({4, 2, 2}, {8.0, 4.0, 4.0});
  const auto field = uniform_field(mesh, {plain_solid()}, {Frame::Identity()});
  StaticSolver solver(mesh, {});
  solver.set_material(field);
  // Pulled at both ends, 0.1 N of 160 N more at one: the bar accelerates along its axis.
  const double pull = 5.0, more = 5.0 + 0.1 / 16.0;
  const Eigen::VectorXd load = push(mesh, xi_low, -pull) + push(mesh, xi_high, -more);

  const Eigen::VectorXd u = solver.solve(load);
  const auto points = stress_points(mesh);
  const auto stress = recover_stress(mesh, field, points, u);

  BOOST_TEST(solver.report().unbalanced_force_fraction == 0.1 / size_of(mesh, load),
             tolerance(1e-9));
  // Inertia spreads the difference evenly: the axial stress runs linearly from end to end.
  for (std::size_t p = 0; p < points.size(); ++p) {
    const double x = mesh.nodes(0, points[p].node) / 8.0;
    BOOST_TEST(stress(0, p) == pull + (more - pull) * x, tolerance(1e-9));
  }
}

BOOST_AUTO_TEST_CASE(an_unbalanced_load_on_a_free_body_is_refused_with_its_resultant) {
  const auto mesh = box_mesh({2, 2, 2}, {2.0, 2.0, 2.0});
  StaticSolver solver(mesh, {});
  solver.set_material(uniform_field(mesh, {plain_solid()}, {Frame::Identity()}));
  const Eigen::VectorXd load = spread_force(mesh, {zeta_high}, {0.0, 0.0, 12.5}, {3.0, 0.0, 0.0});

  require_refused([&] { solver.solve(load); },
                  "load 1 is not balanced and nothing holds the part against it: resultant force "
                  "(0, 0, 12.5) N, moment (3, 0, 0) N mm about (1, 1, 1) mm");
}

BOOST_AUTO_TEST_CASE(a_load_along_a_direction_that_supports_leave_free_is_refused) {
  const auto mesh = box_mesh({2, 2, 2}, {2.0, 2.0, 2.0});
  StaticSolver solver(mesh, constraints_of(mesh, {{"floor", {zeta_low}, Hold::normal}}));
  solver.set_material(uniform_field(mesh, {plain_solid()}, {Frame::Identity()}));
  const Eigen::VectorXd down = push(mesh, zeta_high, 0.5), along = push(mesh, xi_low, 0.5);

  BOOST_TEST(solver.solve(down).norm() > 0.0);
  require_refused([&] { solver.solve(along); }, "resultant force (2, ");
}

BOOST_AUTO_TEST_CASE(two_separate_bodies_are_balanced_each_on_its_own) {
  const auto two = joined(box_mesh({2, 1, 1}, {2.0, 1.0, 1.0}),
                          block_mesh({2, 1, 1},
                                     [](const Eigen::Vector3d& u) {
                                       return Eigen::Vector3d(2.0 * u.x(), u.y() + 5.0, u.z());
                                     }),
                          10);
  StaticSolver solver(two, {});
  solver.set_material(uniform_field(two, {plain_solid()}, {Frame::Identity()}));
  const Eigen::VectorXd squeezed = push(two, xi_low, 1.0) + push(two, xi_high, 1.0);
  const Eigen::VectorXd apart = push(two, xi_low, 1.0) + push(two, FaceId{12}, 1.0);

  const Eigen::VectorXd u = solver.solve(squeezed);

  BOOST_TEST(near(solver.internal_forces(u).col(0), squeezed, 1e-9));
  require_refused([&] { solver.solve(apart); }, "is not balanced");
}

BOOST_AUTO_TEST_CASE(what_does_not_fit_the_mesh_is_refused) {
  const auto mesh = box_mesh({1, 1, 1}, {1.0, 1.0, 1.0});
  const auto field = uniform_field(mesh, {plain_solid()}, {Frame::Identity()});
  const Eigen::Matrix3d all = Eigen::Matrix3d::Identity();

  require_refused(
      [&] {
        StaticSolver(mesh, {{99, all}});
      },
      "constraint at node 99: the mesh has 27");
  require_refused([&] { StaticSolver(mesh, {{1, all}, {1, all}}); }, "given twice");
  require_refused([&] { StaticSolver(mesh, {{1, 2.0 * all}}); }, "not orthonormal");
  require_refused([&] { StaticSolver(TetrahedronMesh{}, {}); }, "no elements");

  StaticSolver solver(mesh, {});
  require_refused<std::logic_error>([&] { solver.solve(Eigen::VectorXd::Zero(81)); },
                                    "set_material comes before solve");
  auto wrong = field;
  wrong.material_of_tetrahedron.pop_back();
  require_refused([&] { solver.set_material(wrong); }, "made for 5 elements, the mesh has 6");
  wrong = field;
  wrong.frame_of_point(2, 0) = 7;
  require_refused([&] { solver.set_material(wrong); }, "names a frame that is not there");
  wrong = field;
  wrong.frame_of_point = Eigen::MatrixXi::Zero(6, 4);
  require_refused([&] { solver.set_material(wrong); }, "has frames for 4 points per element");
  wrong = field;
  wrong.materials[0].density = std::numeric_limits<double>::quiet_NaN();
  require_refused([&] { solver.set_material(wrong); }, "needs a positive density");

  solver.set_material(field);
  require_refused([&] { solver.solve(Eigen::VectorXd::Zero(7)); }, "a load has 7 entries");
  Eigen::VectorXd bad = Eigen::VectorXd::Zero(81);
  bad[5] = std::numeric_limits<double>::quiet_NaN();
  require_refused([&] { solver.solve(bad); }, "load 1 has entries that are not finite numbers");
}

BOOST_AUTO_TEST_CASE(elements_that_hang_by_an_edge_are_reported_with_their_place) {
  // Two boxes that share one edge only can turn about it: no rigid motion of the whole sees that.
  const auto hinged =
      welded(joined(box_mesh({1, 1, 1}, {1.0, 1.0, 1.0}),
                    block_mesh({1, 1, 1},
                               [](const Eigen::Vector3d& u) {
                                 return Eigen::Vector3d(1.0 + u.x(), 1.0 + u.y(), u.z());
                               }),
                    10),
             1e-9);
  StaticSolver solver(hinged, constraints_of(hinged, {{"foot", {xi_low}, Hold::all}}));

  const auto field = uniform_field(hinged, {plain_solid()}, {Frame::Identity()});

  // In the second box, somewhere.
  require_refused<std::runtime_error>([&] { solver.set_material(field); },
                                      "the stiffness matrix is not positive definite at the node "
                                      "near (");
}

BOOST_AUTO_TEST_CASE(a_slender_bar_is_not_mistaken_for_a_mechanism) {
  // 1 x 1 x 300 mm; Euler-Bernoulli, F L^3 / (3 E I).
  const auto bar = box_mesh({100, 1, 1}, {300.0, 1.0, 1.0});
  StaticSolver solver(bar, constraints_of(bar, {{"foot", {xi_low}, Hold::all}}));
  solver.set_material(uniform_field(bar, {plain_solid()}, {Frame::Identity()}));
  const double force = 1e-4;

  const Eigen::VectorXd u = solver.solve(spread_force(bar, {xi_high}, {0, 0, force}, {0, 0, 0}));

  const double tip = u[3 * nearest_node(bar, {300.0, 0.5, 0.5}) + 2];
  // Elements three times as long as thick, one through the thickness: a little stiff.
  BOOST_TEST(tip == force * 2.7e7 / (3.0 * 2000.0 / 12.0), tolerance(0.02));
}

BOOST_AUTO_TEST_SUITE_END()
