// SPDX-License-Identifier: GPL-3.0-or-later
#include <boost/test/unit_test.hpp>

#include "solver/directions/energy_bound.h"
#include "solver/directions/half_sphere.h"
#include "solver/directions/reduced_load.h"
#include "tests/solver/pipe_under_pressure.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"

namespace crossgrain::testing {
namespace {

/// A quarter of a pipe of curved elements, its outer half of a solid without layers.
struct TwoBodies : Pipe {
  TwoBodies() : Pipe(2) {
    for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
      const Eigen::Vector3d at = mesh.nodes.col(mesh.tetrahedra(4, t));
      mesh.body_of_tetrahedron[t] = BodyId{at.head<2>().norm() > 23.0 ? 2 : 1};
    }
  }
  MaterialField printed_along(const Eigen::Vector3d& build) const {
    const Frame frame = frame_along(build);
    return uniform_field(mesh, {printed_nylon(), plain_solid()}, {frame, frame});
  }
};

struct Shell : TwoBodies {
  SolverOptions direct{.threads = 1, .method = SolverMethod::direct};
  MaterialField any = printed_along({0, 0, 1});
  DirectionalStiffness stiffness{mesh, any, 1};
};

const std::vector<Eigen::Vector3d> test_directions{
    {0, 0, 1}, {1, 0, 0}, {0.3, -0.5, 0.8}, {-2, 7, 0.5}, {1, 1, 1}};

/// What is sought among answers for evenly spread directions.
ReducedLoad reduced(const Shell& shell, StaticSolver& solver, int snapshots) {
  ReducedLoad answer(shell.stiffness, DirectionalLoad(shell.load));
  const Eigen::Matrix3Xd directions = half_sphere(snapshots);
  for (const Eigen::Vector3d n : directions.colwise()) {
    solver.set_material(shell.printed_along(n));
    answer.widen(n, solver.solve(shell.load));
  }
  return answer;
}

double energy_norm(const StaticSolver& solver, const Eigen::VectorXd& u) {
  return std::sqrt(u.dot(solver.internal_forces(u).col(0)));
}

}  // namespace

BOOST_FIXTURE_TEST_SUITE(directions, Shell)

// Round-off of sums over some thousand elements, straight ones by fewer points than the matrix.
BOOST_AUTO_TEST_CASE(forces_of_monomials_sum_to_those_of_the_assembled_matrix) {
  const Eigen::VectorXd u = Eigen::VectorXd::Random(mesh.unknowns());
  StaticSolver solver(mesh, held, direct);
  for (const auto& n : test_directions) {
    solver.set_material(printed_along(n));
    const Eigen::VectorXd expected = solver.internal_forces(u);

    BOOST_TEST(near(stiffness.forces(stiffness.moments(u)[0], n), expected, 1e-12));
  }
}

// The inner half turns, the outer one, layered as well here, stays as it is.
BOOST_AUTO_TEST_CASE(what_is_held_keeps_its_stiffness_while_others_turn) {
  const Eigen::Vector3d held_along(1, -2, 0.5);
  const auto field_along = [&](const Eigen::Vector3d& n) {
    return uniform_field(mesh, {printed_nylon(), printed_nylon()},
                         {frame_along(n), frame_along(held_along)});
  };
  const DirectionalStiffness inner(mesh, field_along({0, 0, 1}), {0}, 1);
  const Eigen::VectorXd u = Eigen::VectorXd::Random(mesh.unknowns());
  StaticSolver solver(mesh, held, direct);
  for (const auto& n : test_directions) {
    solver.set_material(field_along(n));
    const Eigen::VectorXd expected = solver.internal_forces(u);

    BOOST_TEST(near(inner.forces(inner.moments(u)[0], n), expected, 1e-12));
  }
}

BOOST_AUTO_TEST_CASE(straight_elements_need_four_points_only) {
  const auto box = box_mesh({2, 2, 3}, {3, 4, 5});
  const auto field = uniform_field(box, {printed_nylon()}, {frame_along({1, -2, 3})});
  const Eigen::VectorXd u = Eigen::VectorXd::Random(box.unknowns());
  StaticSolver solver(box, {}, direct);
  solver.set_material(field);

  const DirectionalStiffness of_box(box, field, 1);

  BOOST_TEST(near(of_box.forces(of_box.moments(u)[0], {1, -2, 3}),
                  Eigen::VectorXd(solver.internal_forces(u)), 1e-12));
}

BOOST_AUTO_TEST_CASE(threads_do_not_show_in_the_products) {
  const Eigen::MatrixXd u = Eigen::MatrixXd::Random(mesh.unknowns(), 3);
  const DirectionalStiffness by_three(mesh, any, 3);
  const auto of_one = stiffness.moments(u), of_three = by_three.moments(u);
  for (int c = 0; c < 3; ++c)
    BOOST_TEST(
        (by_three.products(u, of_three[c]).array() == stiffness.products(u, of_one[c]).array())
            .all());
}

// The linear fit of an element's strain is the fit of its stress, where stress is strain.
BOOST_AUTO_TEST_CASE(strain_comes_with_the_moments_of_each_displacement) {
  const Eigen::MatrixXd u = Eigen::MatrixXd::Random(mesh.unknowns(), 2);
  auto stress_is_strain = plain_solid();
  stress_is_strain.elastic = isotropic(1.0, 0.0);
  const auto unit = uniform_field(mesh, {stress_is_strain, stress_is_strain}, any.frames);

  const auto moments = stiffness.moments(u);

  for (int c = 0; c < 2; ++c) {
    auto expected = element_stress(mesh, unit, u.col(c));
    expected.at_corners.bottomRows<3>() *= 2.0;
    BOOST_TEST(near(moments[c].strain.at_corners, expected.at_corners, 1e-12));
    BOOST_TEST(near(moments[c].strain.volumes, expected.volumes, 1e-12));
  }
}

BOOST_AUTO_TEST_CASE(reduced_blocks_are_the_projected_assembled_matrix) {
  ReducedLoad answer(stiffness, DirectionalLoad(load));
  for (int i = 0; i < 5; ++i)
    answer.widen(Eigen::Vector3d(0, 0, 1), Eigen::VectorXd::Random(mesh.unknowns()));
  StaticSolver solver(mesh, held, direct);
  for (const auto& n : test_directions) {
    solver.set_material(printed_along(n));
    const Eigen::MatrixXd& V = answer.vectors();
    const Eigen::MatrixXd expected = V.transpose() * solver.internal_forces(V);

    BOOST_TEST(near(answer.stiffness_along(n), expected, 1e-12));
  }
}

BOOST_AUTO_TEST_CASE(free_expansion_is_a_load_of_six_parts) {
  auto layered = printed_nylon();
  layered.thermal_expansion = {2e-5, 2e-5, 9e-5};
  const Eigen::VectorXd warming = mesh.nodes.row(2).transpose().array() + 10.0;
  const auto load_along = [&](const Eigen::Vector3d& n) {
    const Frame frame = frame_along(n);
    return thermal_load(mesh, uniform_field(mesh, {layered, plain_solid()}, {frame, frame}),
                        warming);
  };

  const DirectionalLoad directional(load_along);

  for (const auto& n : test_directions)
    BOOST_TEST(
        near(Eigen::VectorXd(directional.parts() * directional.weights(n)), load_along(n), 1e-12));
}

// Springs that stay, and a part of the load that counts what is told.
BOOST_AUTO_TEST_CASE(stiffness_beside_the_elements_and_told_loads_count_in_the_answer) {
  StiffnessAdditions springs;
  springs.springs.push_back({{{5, {1, 0, 0}}, {40, {0, -1, 0.5}}}, 3000.0});
  springs.blocks.push_back({7, 90, Eigen::Matrix3d::Constant(-200.0)});
  for (const int node : {7, 90})
    springs.blocks.push_back({node, node, Eigen::Matrix3d::Constant(200.0)});
  DirectionalLoad with_more(load);
  const Eigen::VectorXd more =
      traction_load(mesh, {zeta_low}, [](const auto&) { return Eigen::Vector3d(0, 3, 1); });
  with_more.add_told(more);
  ReducedLoad answer(stiffness, with_more, springs);
  StaticSolver solver(mesh, held, direct);
  solver.set_additions(springs);
  const auto solved = [&](const Eigen::Vector3d& n, double told) -> Eigen::VectorXd {
    solver.set_material(printed_along(n));
    return solver.solve(load + told * more);
  };
  const Eigen::Vector3d n(0.3, -0.5, 0.8);
  const Eigen::MatrixXd told = Eigen::MatrixXd::Constant(1, 1, 2.0);

  answer.widen(n, solved(n, 2.0), told);
  answer.widen(n, solved(n, -1.0), -0.5 * told);

  // In the span of both every told part is answered.
  const Eigen::VectorXd expected = solved(n, 0.7);
  BOOST_TEST(near(
      Eigen::VectorXd(answer.vectors() * answer.coefficients(n, Eigen::VectorXd::Constant(1, 0.7))),
      expected, 1e-9));
}

BOOST_AUTO_TEST_CASE(an_answer_that_was_put_in_comes_out) {
  StaticSolver solver(mesh, held, direct);
  const auto answer = reduced(*this, solver, 6);
  const Eigen::Vector3d n = half_sphere(6).col(3);
  solver.set_material(printed_along(n));

  BOOST_TEST(near(answer.displacement(n), Eigen::VectorXd(solver.solve(load)), 1e-9));
  // Of nothing new there is nothing to gain.
  auto same = answer;
  BOOST_TEST(same.widen(n, solver.solve(load)).empty());
}

// A span does not depend on the order in which it was widened.
BOOST_AUTO_TEST_CASE(
    without_some_solutions_the_answer_is_what_it_would_be_had_they_not_been_solved) {
  StaticSolver solver(mesh, held, direct);
  ReducedLoad all(stiffness, DirectionalLoad(load)), some = all;
  const Eigen::Matrix3Xd directions = half_sphere(7);
  std::vector<char> without(7, 0);
  for (Eigen::Index i = 0; i < directions.cols(); ++i) {
    const Eigen::Vector3d n = directions.col(i);
    solver.set_material(printed_along(n));
    const Eigen::VectorXd u = solver.solve(load);
    all.widen(n, u);
    without[i] = i % 3 == 0;
    if (!without[i]) some.widen(n, u);
  }
  // Solved twice adds nothing, and left out takes nothing away.
  const Eigen::Vector3d again = directions.col(4);
  solver.set_material(printed_along(again));
  all.widen(again, solver.solve(load));
  without.push_back(1);

  const Eigen::MatrixXd span = all.span_without(without);

  BOOST_TEST(span.cols() == 4);
  for (const auto& n : test_directions)
    BOOST_TEST(near(Eigen::VectorXd(all.vectors() * all.coefficients_within(span, n)),
                    some.displacement(n), 1e-8));
}

// Galerkin's answer is the nearest of the span in energy: a wider span is never farther. By 28
// directions the error in energy is far below the per cent that strength needs (0.6 % of the factor
// was found with as many on other meshes of the same solid).
BOOST_AUTO_TEST_CASE(a_wider_span_is_nearer_in_energy) {
  StaticSolver solver(mesh, held, direct);
  const auto few = reduced(*this, solver, 10);
  auto more = few;
  const Eigen::Matrix3Xd directions = half_sphere(28);
  for (const Eigen::Vector3d n : directions.colwise()) {
    solver.set_material(printed_along(n));
    more.widen(n, solver.solve(load));
  }
  for (const auto& n : test_directions) {
    solver.set_material(printed_along(n));
    const Eigen::VectorXd u = solver.solve(load);
    const double size = energy_norm(solver, u);
    const double error_of_few = energy_norm(solver, u - few.displacement(n)) / size;
    const double error_of_more = energy_norm(solver, u - more.displacement(n)) / size;

    BOOST_TEST(error_of_more < error_of_few);
    BOOST_TEST(error_of_more < 0.01);
  }
}

// The bound holds by the spectrum of the solids alone, and its looseness does too: their ratio.
BOOST_AUTO_TEST_CASE(the_energy_bound_is_never_below_the_true_error) {
  StaticSolver solver(mesh, held, direct);
  const auto isotropic = isotropic_field(any);
  const double loosest = std::sqrt(isotropic.greatest / isotropic.least);
  for (const int snapshots : {1, 4, 12}) {
    const auto answer = reduced(*this, solver, snapshots);
    for (const auto& n : test_directions) {
      solver.set_material(printed_along(n));
      const Eigen::VectorXd u = solver.solve(load);
      const double error = energy_norm(solver, u - answer.displacement(n));

      solver.set_material(isotropic.field);
      const double bound = energy_error_bounds(solver, isotropic, answer.residual(n))[0];

      BOOST_TEST(bound >= error);
      BOOST_TEST(bound <= loosest * error * (1 + 1e-9));
    }
  }
}

BOOST_AUTO_TEST_CASE(the_half_sphere_is_covered_evenly) {
  const Eigen::Matrix3Xd n = half_sphere(1000);

  BOOST_TEST(
      near(Eigen::VectorXd(n.colwise().norm().transpose()), Eigen::VectorXd::Ones(1000), 1e-14));
  BOOST_TEST(n.row(2).minCoeff() > 0.0);
  // Of evenly spread axes the mean of n n^t is a third of the identity; a spiral of a thousand
  // turns keeps to it within a few of a thousand.
  BOOST_TEST(near(Eigen::Matrix3d(n * n.transpose() / 1000.0),
                  Eigen::Matrix3d(Eigen::Matrix3d::Identity() / 3.0), 0.005));
}

BOOST_AUTO_TEST_CASE(a_displacement_of_another_mesh_is_refused) {
  BOOST_TEST(refused([&] { stiffness.moments(Eigen::VectorXd::Zero(3)); }, "does not fit"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
