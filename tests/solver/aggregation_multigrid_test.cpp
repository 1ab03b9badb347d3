// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/multigrid/aggregation_multigrid.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/aggregation/galerkin.h"
#include "solver/assembly/stiffness_assembly.h"
#include "solver/multigrid/corner_factor.h"
#include "tests/solver/pipe_under_pressure.h"
#include "tests/solver/solved.h"
#include "tests/support/near.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

SolverOptions iterating(CornerMethod corner_method) {
  return {.threads = 1, .method = SolverMethod::iterative, .corner_method = corner_method};
}

/// The corners' matrix of a mesh, and what stands round it.
struct Corners {
  TetrahedronMesh mesh;
  StiffnessAssembly assembly;
  FreeDirections free;
  Blocks<double> A;

  Corners(TetrahedronMesh given, std::vector<FreeDirections::HeldNode> held)
      : mesh(std::move(given)),
        assembly(mesh, stiffness_rule(), 1),
        free(assembly.linear_level().corners(), std::move(held)) {
    assembly.assemble(uniform_field(mesh, {printed_nylon()}, {frame_along({0.3, 0.5, 1.0})}));
    free.project(assembly.corner_pattern(), assembly.corner_matrix(), A, 1);
  }

  const Eigen::Matrix3Xd& positions() const { return assembly.linear_level().positions(); }
};

/// As the corners of one end, each held across another direction.
std::vector<FreeDirections::HeldNode> skew_holds(int count) {
  std::vector<FreeDirections::HeldNode> held;
  for (int i = 0; i < count; ++i) {
    const Eigen::Vector3d n = Eigen::Vector3d(1.0, std::sin(i), std::cos(3 * i)).normalized();
    held.push_back({i, Eigen::Matrix3d::Identity() - n * n.transpose()});
  }
  return held;
}

NodeVectors<float> arbitrary(Eigen::Index nodes, int columns) {
  NodeVectors<float> vectors(nodes, columns);
  for (Eigen::Index i = 0; i < nodes; ++i)
    for (int c = 0; c < columns; ++c)
      for (int k = 0; k < 3; ++k)
        vectors.at(i, c)[k] =
            static_cast<float>(std::sin(7.0 * static_cast<double>(i * i) + k + c));
  return vectors;
}

double dot(const NodeVectors<float>& a, const NodeVectors<float>& b) {
  return (a.range(0, a.nodes()).cast<double>().array() *
          b.range(0, b.nodes()).cast<double>().array())
      .sum();
}

Eigen::MatrixXd times(const BlockTable& P, const Eigen::MatrixXd& x) {
  Eigen::MatrixXd y = Eigen::MatrixXd::Zero(3 * P.rows(), x.cols());
  for (Eigen::Index row = 0; row < P.rows(); ++row)
    P.for_each_in_row(row, [&](int column, const Eigen::Matrix3d& block) {
      y.middleRows<3>(3 * row) += block * x.middleRows<3>(3 * column);
    });
  return y;
}

/// What rigid motions about a point far off are in a level's unknowns.
Eigen::MatrixXd rigid_motions(const RigidPoints& points) {
  const int rows = 3 * points.nodes_per_point;
  Eigen::MatrixXd motions(rows * points.count(), 6);
  for (Eigen::Index i = 0; i < points.count(); ++i)
    motions.middleRows(rows * i, rows) = points.motion_about({-50.0, 30.0, 80.0}, i);
  return motions;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(aggregation_multigrid)

BOOST_AUTO_TEST_CASE(rigid_motions_come_through_every_prolongation_and_take_no_energy) {
  // Straight elements: where an edge is curved its middle does not turn as the mean of its ends.
  Corners corners(box_mesh({14, 4, 14}, {30.0, 6.0, 30.0}), {});
  GalerkinMatrix level{corners.assembly.corner_pattern(), std::move(corners.A)};
  RigidPoints points = rigid_corners(corners.positions(), corners.free);
  for (int depth = 0; depth < 2; ++depth) {
    const SymmetricRows A(level.pattern, level.A);
    const auto aggregates = aggregate_points(A, points.nodes_per_point, 0.0);
    BOOST_TEST(aggregates.count < points.count() / 4);
    auto [coarse, tentative] = coarsened(points, aggregates);
    const BlockTable P = smoothed(tentative, A, 0.5, 1);
    const Eigen::MatrixXd moved = times(P, rigid_motions(coarse));

    // Round-off of sums over some ten blocks.
    BOOST_TEST(near(moved, rigid_motions(points), 1e-12));
    level = galerkin_matrix(P, A, 1);
    points = std::move(coarse);
    double energy = 0.0, size = 0.0;
    const SymmetricRows next(level.pattern, level.A);
    const Eigen::MatrixXd motions = rigid_motions(points);
    for (Eigen::Index row = 0; row < next.rows(); ++row) {
      Eigen::Matrix<double, 3, 6> force = Eigen::Matrix<double, 3, 6>::Zero();
      next.for_each_in_row(row, [&](int column, const auto& block) {
        const Eigen::Matrix<double, 3, 6> part = block * motions.middleRows<3>(3 * column);
        force += part;
        size = std::max(size, part.cwiseAbs().maxCoeff());
      });
      energy = std::max(energy, force.cwiseAbs().maxCoeff());
    }
    BOOST_TEST(size > 0.0);
    BOOST_TEST(energy <= 1e-11 * size);
  }
}

BOOST_AUTO_TEST_CASE(aggregates_of_one_or_two_points_move_as_far_as_they_can) {
  const Eigen::Matrix3Xd positions{{0, 1, 5}, {0, 2, 5}, {0, 3, 5}};
  const RigidPoints points = rigid_corners(positions, FreeDirections(3, {}));
  const auto [coarse, P] = coarsened(points, {2, {0, 0, 1}});

  BOOST_TEST(near(times(P, rigid_motions(coarse)), rigid_motions(points), 1e-13));
  // Five motions of two points, three of one; orthonormal.
  Eigen::MatrixXd Q = times(P, Eigen::MatrixXd::Identity(12, 12));
  Eigen::VectorXd expected = Eigen::VectorXd::Zero(12);
  expected.head<5>().setOnes();
  expected.segment<3>(6).setOnes();
  BOOST_TEST(near(Q.transpose() * Q, Eigen::MatrixXd(expected.asDiagonal()), 1e-14));
}

BOOST_AUTO_TEST_CASE(held_directions_stay_held_and_the_cycle_is_symmetric_and_positive) {
  const Corners corners(quarter_pipe(4), skew_holds(60));
  AggregationMultigrid multigrid(corners.assembly.corner_pattern(), corners.free,
                                 corners.positions(), 1);
  BOOST_TEST_REQUIRE(multigrid.set_matrix(corners.A) == -1);
  auto b = arbitrary(corners.positions().cols(), 2);
  corners.free.project(b);
  NodeVectors<float> x(b.nodes(), 2);

  multigrid.solve(b, x);

  NodeVectors<float> projected = x;
  corners.free.project(projected);
  BOOST_TEST(near(projected.range(0, x.nodes()), x.range(0, x.nodes()), 1e-6));
  NodeVectors<float> b1(b.nodes(), 1), b2 = b1, x1 = b1, x2 = b1;
  for (Eigen::Index i = 0; i < b.nodes(); ++i) b1.at(i, 0) = b.at(i, 0), b2.at(i, 0) = b.at(i, 1);
  multigrid.solve(b1, x1);
  multigrid.solve(b2, x2);
  const double size = std::sqrt(dot(b1, x1) * dot(b2, x2));
  BOOST_TEST(dot(b1, x1) > 0.0);
  BOOST_TEST(dot(b2, x2) > 0.0);
  // Single precision, of sums over some thousand corners.
  BOOST_TEST(std::abs(dot(b1, x2) - dot(b2, x1)) <= 1e-4 * size);
  for (Eigen::Index i = 0; i < b.nodes(); ++i) b1.at(i, 0) = x.at(i, 0), b2.at(i, 0) = x.at(i, 1);
  BOOST_TEST(near(b1.range(0, b.nodes()), x1.range(0, b.nodes()), 1e-5));
  BOOST_TEST(near(b2.range(0, b.nodes()), x2.range(0, b.nodes()), 1e-5));
}

BOOST_AUTO_TEST_CASE(a_corner_without_stiffness_is_named_as_by_the_factor) {
  Corners corners(quarter_pipe(3), skew_holds(60));
  const auto& pattern = corners.assembly.corner_pattern();
  constexpr int empty = 321;
  for (int row = 0; row < pattern.nodes(); ++row)
    for (auto k = pattern.row_start[row]; k < pattern.row_start[row + 1]; ++k)
      if (row == empty || pattern.column[k] == empty) corners.A[k].setZero();
  AggregationMultigrid multigrid(pattern, corners.free, corners.positions(), 1);
  CornerFactor factor(std::make_unique<SparseCholesky<float>>(pattern, 1));

  BOOST_TEST(multigrid.set_matrix(corners.A) == empty);
  BOOST_TEST(factor.set_matrix(corners.A) == empty);
}

BOOST_AUTO_TEST_CASE(the_solution_is_the_direct_one_and_iterations_do_not_grow_with_the_mesh) {
  std::vector<int> needed;
  for (const int across : {3, 5}) {
    const Pipe pipe(across);
    const auto field = pipe.field(printed_nylon(), {0.3, 0.5, 1.0});
    const auto exact =
        solve(pipe.mesh, pipe.held, field, pipe.load, iterating(CornerMethod::factor));
    const auto solved =
        solve(pipe.mesh, pipe.held, field, pipe.load, iterating(CornerMethod::aggregation));

    BOOST_TEST(solved.report.method == "conjugate gradients, p-multigrid, aggregation");
    BOOST_TEST(exact.report.method == "conjugate gradients, p-multigrid");
    BOOST_TEST(near(solved.u, exact.u, 1e-6));
    BOOST_TEST(solved.report.iterations <= 2 * exact.report.iterations);
    needed.push_back(solved.report.iterations);
  }
  BOOST_TEST(needed.back() <= needed.front() + 5);
}

BOOST_AUTO_TEST_CASE(aggregation_gives_the_same_to_the_last_bit_for_any_number_of_threads) {
  const Pipe pipe(4);
  const auto field = pipe.field(printed_nylon(), {1, 2, 3});
  SolverOptions one = iterating(CornerMethod::aggregation), three = one;
  one.threads = 1;
  three.threads = 3;

  const auto from_one = solve(pipe.mesh, pipe.held, field, pipe.load, one);
  const auto from_three = solve(pipe.mesh, pipe.held, field, pipe.load, three);

  BOOST_TEST(from_one.u.norm() > 0.0);
  BOOST_TEST((from_one.u.array() == from_three.u.array()).all());
}

BOOST_AUTO_TEST_CASE(bodies_apart_and_bodies_afloat_are_solved_as_by_the_factor) {
  const Pipe pipe(3);
  auto shifted = pipe.mesh;
  shifted.nodes.row(2).array() += 100.0;
  const auto mesh = joined(pipe.mesh, shifted, 10);
  const auto field = uniform_field(mesh, {printed_nylon()}, {frame_along({0.3, 0.5, 1.0})});
  // The second one floats, squeezed from all sides.
  const auto squeezed = pressure_load(
      mesh, {eta_low, FaceId{11}, FaceId{12}, FaceId{13}, FaceId{14}, FaceId{15}, FaceId{16}},
      [](const auto&) { return 0.7; });
  Eigen::MatrixXd loads(squeezed.size(), 3);
  for (int c = 0; c < 3; ++c) loads.col(c) = (c + 1.0) * squeezed;

  const auto exact = solve(mesh, pipe.held, field, loads, iterating(CornerMethod::factor));
  const auto solved = solve(mesh, pipe.held, field, loads, iterating(CornerMethod::aggregation));

  BOOST_TEST(solved.report.method == "conjugate gradients, p-multigrid, aggregation");
  BOOST_TEST(near(solved.u, exact.u, 1e-6));
  BOOST_TEST(solved.report.iterations <= 2 * exact.report.iterations);
}

BOOST_AUTO_TEST_SUITE_END()
