// SPDX-License-Identifier: GPL-3.0-or-later
#include <Eigen/Cholesky>
#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/assembly/stiffness_assembly.h"
#include "solver/blocks/node_sums.h"
#include "solver/elements/stiffness_spectrum.h"
#include "solver/iteration/conjugate_gradients.h"
#include "solver/loads/loads.h"
#include "solver/multigrid/two_level_cycle.h"
#include "solver/static_solver.h"
#include "solver/stress/stress_recovery.h"
#include "tests/solver/pipe_under_pressure.h"
#include "tests/solver/solved.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

constexpr SolverOptions direct{.method = SolverMethod::direct};
constexpr SolverOptions iterative{.method = SolverMethod::iterative};

/// Both ways, to the digits that the tolerance promises: the energy's error is of the order of the
/// residual's square times the condition, the displacement's of the residual times it.
Solved check_against_direct(const TetrahedronMesh& mesh, const std::vector<NodeConstraint>& held,
                            const MaterialField& field, const Eigen::VectorXd& load) {
  const Solved by_factor = solve(mesh, held, field, load, direct);
  const Solved by_iteration = solve(mesh, held, field, load, iterative);
  BOOST_TEST(by_factor.report.method == "sparse Cholesky");
  BOOST_TEST(by_iteration.report.method == "conjugate gradients, p-multigrid");
  BOOST_TEST(by_iteration.report.relative_residual <= SolverOptions{}.tolerance);
  BOOST_TEST(near(by_iteration.u, by_factor.u, 1e-6));
  BOOST_TEST(load.dot(by_iteration.u.col(0)) == load.dot(by_factor.u.col(0)),
             boost::test_tools::tolerance(1e-10));
  return by_iteration;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(iterative_solver)

BOOST_AUTO_TEST_CASE(
    iterations_give_what_the_factor_gives_and_need_no_more_of_them_on_finer_meshes) {
  std::vector<int> needed;
  for (const int across : {2, 3}) {
    const Pipe pipe(across);
    const auto solved = check_against_direct(
        pipe.mesh, pipe.held, pipe.field(printed_nylon(), {0.3, 0.5, 1.0}), pipe.load);

    needed.push_back(solved.report.iterations);
  }
  // 20 and 18 were needed.
  BOOST_TEST(needed.front() <= 25);
  BOOST_TEST(needed.back() <= needed.front());
}

BOOST_AUTO_TEST_CASE(small_systems_are_solved_directly_larger_ones_by_iteration) {
  const Pipe small(2), large(4);
  const auto way = [](const Pipe& pipe) {
    return solve(pipe.mesh, pipe.held, pipe.field(plain_solid(), {0, 0, 1}), pipe.load, {})
        .report.method;
  };
  BOOST_TEST(way(small) == "sparse Cholesky");
  BOOST_TEST(way(large) == "conjugate gradients, p-multigrid");
}

BOOST_AUTO_TEST_CASE(several_loads_iterate_together_each_to_its_own_solution) {
  const Pipe pipe(2);
  const auto field = pipe.field(printed_nylon(), {1, 0, 1});
  Eigen::MatrixXd loads(pipe.load.size(), 5);
  for (int c = 0; c < 5; ++c)
    loads.col(c) = std::pow(10.0, 2 * c - 4) *
                   pressure_load(pipe.mesh, {c % 2 == 0 ? eta_low : zeta_high},
                                 [c](const Eigen::Vector3d& at) { return 1.0 + c * at.x(); });
  loads.col(3).setZero();

  const auto together = solve(pipe.mesh, pipe.held, field, loads, iterative);

  for (int c = 0; c < 5; ++c) {
    const auto alone = solve(pipe.mesh, pipe.held, field, loads.col(c), direct);
    BOOST_TEST(near(together.u.col(c), alone.u.col(0), 1e-6));
  }
}

BOOST_AUTO_TEST_CASE(iterations_give_the_same_to_the_last_bit_for_any_number_of_threads) {
  const Pipe pipe(3);
  const auto field = pipe.field(printed_nylon(), {1, 2, 3});
  SolverOptions one = iterative, three = iterative;
  one.threads = 1;
  three.threads = 3;

  const auto from_one = solve(pipe.mesh, pipe.held, field, pipe.load, one);
  const auto from_three = solve(pipe.mesh, pipe.held, field, pipe.load, three);

  BOOST_TEST(from_one.u.norm() > 0.0);
  BOOST_TEST((from_one.u.array() == from_three.u.array()).all());
}

BOOST_AUTO_TEST_CASE(a_free_body_is_iterated_without_its_rigid_motions) {
  const Pipe pipe(2);
  const auto field = pipe.field(printed_nylon(), {0.3, 0.5, 1.0});
  const Eigen::VectorXd squeezed =
      pressure_load(pipe.mesh, {xi_low, xi_high, eta_low, eta_high, zeta_low, zeta_high},
                    [](const auto&) { return 0.7; });
  check_against_direct(pipe.mesh, {}, field, squeezed);
}

BOOST_AUTO_TEST_CASE(nearly_incompressible_rubber_takes_more_iterations_but_few_enough) {
  const Pipe pipe(2);
  SolidMaterial rubber = plain_solid();
  rubber.elastic = isotropic(10.0, 0.495);
  const auto solved =
      check_against_direct(pipe.mesh, pipe.held, pipe.field(rubber, {0, 0, 1}), pipe.load);

  BOOST_TEST(solved.report.iterations <= 120);
}

BOOST_AUTO_TEST_CASE(moduli_ten_to_one_within_a_body_stay_within_bounds) {
  const Pipe pipe(2);
  SolidMaterial extreme = plain_solid();
  extreme.elastic = {20000, 20000, 2000, 0.35, 0.35, 0.35, 500, 500, 20000 / 2.7};
  const auto solved =
      check_against_direct(pipe.mesh, pipe.held, pipe.field(extreme, {1, 1, 1}), pipe.load);

  BOOST_TEST(solved.report.iterations <= 40);
}

BOOST_AUTO_TEST_CASE(a_stiff_insert_in_soft_plastic_does_not_cost_iterations) {
  const auto mesh = block_mesh(
      {8, 4, 6},
      [](const Eigen::Vector3d& u) { return Eigen::Vector3d(16 * u.x(), 8 * u.y(), 12 * u.z()); },
      [](const Eigen::Vector3d& at) { return BodyId{at.x() > 0.4 && at.x() < 0.7 ? 2 : 1}; });
  SolidMaterial soft = plain_solid(), metal = plain_solid();
  soft.elastic = isotropic(20.0, 0.4);
  metal.elastic = isotropic(200'000.0, 0.3);
  const auto field = uniform_field(mesh, {soft, metal}, {Frame::Identity(), Frame::Identity()});
  const auto held = constraints_of(mesh, {{"foot", {zeta_low}, Hold::all}});
  const auto load = pressure_load(mesh, {zeta_high}, [](const auto&) { return 1.0; });

  BOOST_TEST(check_against_direct(mesh, held, field, load).report.iterations <= 40);
}

BOOST_AUTO_TEST_CASE(flat_elements_cost_iterations_and_at_last_the_direct_solve_takes_over) {
  const auto sheet_of = [](double thickness) {
    return block_mesh({8, 8, 2}, [thickness](const Eigen::Vector3d& u) {
      return Eigen::Vector3d(40 * u.x(), 40 * u.y(), thickness * u.z());
    });
  };
  // Edges of 5 mm, layers of 0.5 mm.
  const auto plate = sheet_of(1.0);
  const auto clamped = [](const TetrahedronMesh& mesh) {
    return constraints_of(mesh, {{"rim", {xi_low, xi_high}, Hold::all}});
  };
  const auto load = [](const TetrahedronMesh& mesh) {
    return pressure_load(mesh, {zeta_high}, [](const auto&) { return 1e-3; });
  };
  const auto field = [](const TetrahedronMesh& mesh) {
    return uniform_field(mesh, {printed_nylon()}, {frame_along({0, 0, 1})});
  };
  const auto flat = check_against_direct(plate, clamped(plate), field(plate), load(plate));
  BOOST_TEST(flat.report.iterations <= 250);

  // Layers of 0.05 mm: round-off itself leaves more than the tolerance.
  const auto foil = sheet_of(0.1);
  const auto solved = solve(foil, clamped(foil), field(foil), load(foil), iterative);
  BOOST_TEST(solved.report.method ==
             "sparse Cholesky (conjugate gradients, p-multigrid gave up: the residual has stopped "
             "falling)");
  BOOST_TEST(solved.report.relative_residual < 1e-5);
}

BOOST_AUTO_TEST_CASE(a_solution_is_its_own_warm_start_and_a_neighbour_s_saves_work) {
  const Pipe pipe(2);
  StaticSolver solver(pipe.mesh, pipe.held, iterative);
  solver.set_material(pipe.field(printed_nylon(), {0, 0, 1}));
  const Eigen::MatrixXd u = solver.solve(pipe.load);

  const Eigen::MatrixXd again = solver.solve(pipe.load, Unbalanced::refused, &u);
  BOOST_TEST(solver.report().iterations == 0);
  BOOST_TEST(near(again, u, 1e-14));
  const Eigen::MatrixXd of_another_mesh = u.topRows(u.rows() - 3);
  BOOST_CHECK_THROW(solver.solve(pipe.load, Unbalanced::refused, &of_another_mesh),
                    std::invalid_argument);

  solver.set_material(pipe.field(printed_nylon(), {0, 0.02, 1}));
  solver.solve(pipe.load);
  const int cold = solver.report().iterations;
  solver.solve(pipe.load, Unbalanced::refused, &u);
  BOOST_TEST(solver.report().iterations < cold);
}

BOOST_AUTO_TEST_CASE(a_solution_is_its_own_warm_start_on_a_part_that_nothing_holds) {
  const Pipe pipe(2);
  StaticSolver solver(pipe.mesh, {}, iterative);
  solver.set_material(pipe.field(printed_nylon(), {0, 0, 1}));
  const Eigen::MatrixXd u = solver.solve(pipe.load, Unbalanced::left_to_inertia);

  const Eigen::MatrixXd again = solver.solve(pipe.load, Unbalanced::left_to_inertia, &u);

  BOOST_TEST(solver.report().iterations == 0);
  BOOST_TEST(near(again, u, 1e-10));
}

BOOST_AUTO_TEST_CASE(a_direction_nearby_keeps_the_coarse_factor_within_the_bound_of_the_spectrum) {
  const Pipe pipe(2);
  const auto upright = pipe.field(printed_nylon(), {0, 0, 1});
  StaticSolver reused(pipe.mesh, pipe.held, iterative);
  reused.set_material(upright);
  reused.solve(pipe.load);
  const int first = reused.report().iterations;
  const auto turned_to = [&](const Eigen::Vector3d& build) {
    const auto field = pipe.field(printed_nylon(), build);
    reused.set_material(field);
    const Eigen::MatrixXd u = reused.solve(pipe.load);
    BOOST_TEST(near(u, solve(pipe.mesh, pipe.held, field, pipe.load, direct).u, 1e-6));
    return reused.report().iterations;
  };
  const double near_by = spectrum_ratio(upright, pipe.field(printed_nylon(), {0.4, 0, 1})),
               far_off = spectrum_ratio(upright, pipe.field(printed_nylon(), {1, 0, 0}));
  BOOST_TEST(near_by > 2.0);
  BOOST_TEST(near_by < 3.0);
  BOOST_TEST(far_off > 3.0);

  const int with_old_factor = turned_to({0.4, 0, 1});
  BOOST_TEST(with_old_factor > first);
  BOOST_TEST(with_old_factor <= std::sqrt(near_by) * first);
  // A new one: about as many as at first.
  BOOST_TEST(turned_to({1, 0, 0}) <= first + 3);
}

namespace {

/// A pipe's system, and a cycle in front of it that smooths straight elements or the matrix itself.
struct PipeWithCycle {
  Pipe pipe{2};
  StiffnessAssembly assembly{pipe.mesh, stiffness_rule(), 1};
  FreeDirections free{free_in(pipe, assembly)};
  BlockProduct product{assembly.pattern(), 1};
  TwoLevelCycle cycle{assembly.pattern(),
                      assembly.corner_pattern(),
                      assembly.linear_level(),
                      product,
                      free,
                      CornerMethod::factor,
                      1};
  AdditionsByRank none;
  StiffnessOperator A{assembly.matrix(), product, free, none};
  NodeVectors<double> f{pipe.mesh.node_count(), 1};

  explicit PipeWithCycle(bool by_elements) {
    assembly.assemble(pipe.field(printed_nylon(), {0, 0, 1}));
    BOOST_TEST(assembly.straight_elements().usable());
    cycle.set_corner_matrix(assembly.corner_matrix(), {});
    cycle.set_fine_matrix(assembly.matrix(), by_elements ? &assembly.straight_elements() : nullptr,
                          {});
    for (Eigen::Index node = 0; node < f.nodes(); ++node)
      f.at(assembly.order().rank[node], 0).head<3>() = pipe.load.segment<3>(3 * node);
    free.project(f);
  }

  Convergence solve(NodeVectors<double>& u, const ConvergenceLimits& limits) const {
    u = NodeVectors<double>(f.nodes(), 1);
    return conjugate_gradients(A, cycle, f, u, limits, 1);
  }

 private:
  static FreeDirections free_in(const Pipe& pipe, const StiffnessAssembly& assembly) {
    std::vector<FreeDirections::HeldNode> held;
    for (const auto& [node, directions] : pipe.held)
      held.push_back({assembly.order().rank[node],
                      Eigen::Matrix3d::Identity() - directions * directions.transpose()});
    return {pipe.mesh.node_count(), held};
  }
};

}  // namespace

BOOST_AUTO_TEST_CASE(curved_elements_smoothed_as_straight_ones_cost_some_iterations) {
  NodeVectors<double> u_stored, u_by_elements;
  const auto stored = PipeWithCycle(false).solve(u_stored, {.tolerance = 1e-9}),
             by_elements = PipeWithCycle(true).solve(u_by_elements, {.tolerance = 1e-9});
  BOOST_TEST(stored.reached);
  BOOST_TEST(by_elements.reached);
  const auto all = [](const NodeVectors<double>& u) { return u.range(0, u.nodes()); };
  BOOST_TEST(near(all(u_by_elements), all(u_stored), 1e-6));
  BOOST_TEST(by_elements.iterations > stored.iterations);
  BOOST_TEST(by_elements.iterations <= 2 * stored.iterations);
}

// Conjugate gradients that begin with nothing have the error's energy f . (u - u_k) missing from
// the solution's own: Hestenes and Stiefel, J. Res. NBS 49 (1952), theorem 6:1 ff.
BOOST_AUTO_TEST_CASE(the_energy_of_the_error_is_told_when_iterations_end_early) {
  const PipeWithCycle system(false);
  const auto iterated = [&](int iterations) {
    NodeVectors<double> u;
    const auto end = system.solve(u, {.tolerance = 1e-13, .iterations = iterations});
    return std::pair(sums_of_products(system.f, u, 1)[0], end.relative_energy_error[0]);
  };
  const double all = iterated(100).first;
  for (const int iterations : {2, 4, 8}) {
    const auto [energy, estimated] = iterated(iterations);
    const double missing = std::sqrt(1.0 - energy / all);
    BOOST_TEST(missing > 1e-7);
    // The cycle leaves nothing over and takes at least a tenth of any error's energy.
    BOOST_TEST(estimated < 1.05 * missing);
    BOOST_TEST(estimated > 0.3 * missing);
  }
}

BOOST_AUTO_TEST_CASE(where_round_off_ends_iterations_no_other_way_is_tried_and_it_is_said) {
  const Pipe pipe(2);
  SolverOptions hopeless = iterative;
  hopeless.tolerance = 1e-18;
  const auto field = pipe.field(printed_nylon(), {0, 0, 1});

  const auto solved = solve(pipe.mesh, pipe.held, field, pipe.load, hopeless);

  BOOST_TEST(solved.report.method ==
             "conjugate gradients, p-multigrid; round-off keeps the residual where it is");
  // Round-off leaves some 1e-12 in a compact part.
  BOOST_TEST(solved.report.relative_residual < 1e-11);
  BOOST_TEST(near(solved.u, solve(pipe.mesh, pipe.held, field, pipe.load, direct).u, 1e-10));
}

BOOST_AUTO_TEST_CASE(a_mesh_whose_faces_do_not_match_is_refused) {
  // The diagonals of the faces that meet run crosswise: their middles coincide, they do not.
  const auto crossed =
      welded(joined(box_mesh({1, 1, 1}, {1.0, 1.0, 1.0}),
                    block_mesh({1, 1, 1},
                               [](const Eigen::Vector3d& u) {
                                 return Eigen::Vector3d(1.0 + u.x(), 1.0 - u.y(), u.z());
                               }),
                    10),
             1e-9);
  BOOST_TEST(refused([&] { StaticSolver(crossed, {}); },
                     "the mesh does not fit together at (1, 0.5, 0.5) mm"));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(stiffness_beside_the_elements)

namespace {

struct Block {
  TetrahedronMesh mesh = box_mesh({2, 1, 1}, {4.0, 2.0, 2.0});
  MaterialField field = uniform_field(mesh, {nine_constant_solid()}, {skew_frame()});
  std::vector<NodeConstraint> held = constraints_of(mesh, {{"foot", {xi_low}, Hold::all}});
  Eigen::VectorXd load = pressure_load(mesh, {zeta_high}, [](const auto&) { return 0.7; });
  int a = nearest_node(mesh, {4, 0, 0}), b = nearest_node(mesh, {4, 2, 2}),
      middle = nearest_node(mesh, {3, 1, 1});

  StiffnessAdditions screw_and_tie() const {
    StiffnessAdditions additions;
    additions.springs.push_back(
        {{{a, {0.3, 0.2, -1.0}}, {b, {-0.3, 0.1, 1.0}}, {middle, {0, 0.5, 0}}}, 5e4});
    Eigen::Matrix3d tie;
    tie << 900, 20, 0, -10, 700, 30, 5, 0, 800;
    const Eigen::Matrix3d own = 2000.0 * Eigen::Matrix3d::Identity();
    additions.blocks = {{a, middle, -tie}, {a, a, own}, {middle, middle, own}};
    return additions;
  }

  /// By Eigen's dense factor of the matrix that the columns of K, one by one, make up.
  Eigen::VectorXd dense_solution(const StaticSolver& solver,
                                 const StiffnessAdditions& additions) const {
    const auto n = mesh.unknowns();
    Eigen::MatrixXd K = solver.internal_forces(Eigen::MatrixXd::Identity(n, n));
    for (const auto& spring : additions.springs) {
      Eigen::VectorXd v = Eigen::VectorXd::Zero(n);
      for (const auto& share : spring.shares) v.segment<3>(3 * share.node) += share.direction;
      K += spring.stiffness * v * v.transpose();
    }
    for (const auto& [i, j, stiffness] : additions.blocks) {
      K.block<3, 3>(3 * i, 3 * j) += stiffness;
      if (i != j) K.block<3, 3>(3 * j, 3 * i) += stiffness.transpose();
    }
    Eigen::VectorXd f = load;
    for (const auto& constraint : held)
      for (int k = 0; k < 3; ++k) {
        const auto row = 3 * constraint.node + k;
        K.row(row).setZero();
        K.col(row).setZero();
        K(row, row) = 1.0;
        f[row] = 0.0;
      }
    return K.llt().solve(f);
  }
};

}  // namespace

BOOST_AUTO_TEST_CASE(springs_and_blocks_count_as_if_they_were_assembled_and_go_again) {
  const Block block;
  for (const auto& options : {direct, iterative}) {
    StaticSolver solver(block.mesh, block.held, options);
    solver.set_material(block.field);
    const Eigen::MatrixXd without = solver.solve(block.load);
    const auto additions = block.screw_and_tie();

    solver.set_additions(additions);
    const Eigen::VectorXd with = solver.solve(block.load);

    BOOST_TEST(near(with, block.dense_solution(solver, additions), 1e-8));
    BOOST_TEST((with - without).norm() > 0.1 * without.norm());
    solver.set_additions({});
    BOOST_TEST(near(solver.solve(block.load), without, 1e-8));
  }
}

BOOST_AUTO_TEST_CASE(stiffness_that_makes_no_sense_is_refused) {
  const Block block;
  StaticSolver solver(block.mesh, block.held);
  const auto with = [&](auto change) {
    return [&solver, change, additions = block.screw_and_tie()]() mutable {
      change(additions);
      solver.set_additions(additions);
    };
  };
  BOOST_TEST(refused(with([](auto& all) { all.springs[0].stiffness = -1.0; }),
                     "an added spring is negative or not finite"));
  BOOST_TEST(refused(with([](auto& all) { all.springs[0].shares[0].direction[1] = NAN; }),
                     "an added spring is negative or not finite"));
  BOOST_TEST(refused(with([](auto& all) { all.springs[0].shares[0].node = 999; }),
                     "an added stiffness names node 999"));
  BOOST_TEST(refused(with([](auto& all) { all.blocks[1].stiffness(2, 1) = INFINITY; }),
                     "an added stiffness block is not finite"));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(spectrum_of_stiffness)

BOOST_AUTO_TEST_CASE(isotropic_solids_differ_by_their_bulk_and_shear_moduli) {
  const auto mesh = box_mesh({1, 1, 1}, {1, 1, 1});
  const auto field = [&](double E, double nu, const Frame& frame = Frame::Identity()) {
    SolidMaterial material = plain_solid();
    material.elastic = isotropic(E, nu);
    return uniform_field(mesh, {material}, {frame});
  };
  const auto near_to = boost::test_tools::tolerance(1e-12);
  BOOST_TEST(spectrum_ratio(field(10, 0.3), field(10, 0.3, skew_frame())) == 1.0, near_to);
  BOOST_TEST(spectrum_ratio(field(10, 0.3), field(70, 0.3)) == 1.0, near_to);
  // K = E / (3 (1 - 2 nu)), G = E / (2 (1 + nu)).
  const double bulk = (1 - 2 * 0.2) / (1 - 2 * 0.45), shear = 1.2 / 1.45;
  BOOST_TEST(spectrum_ratio(field(10, 0.2), field(10, 0.45)) == bulk / shear, near_to);
}

BOOST_AUTO_TEST_SUITE_END()
