// SPDX-License-Identifier: GPL-3.0-or-later
// Bodies that springs and blocks hold together: how they are solved, and which motions are free.
#include <Eigen/SparseCholesky>
#include <boost/test/unit_test.hpp>

#include "solver/static_solver.h"
#include "tests/solver/two_plates.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"

namespace crossgrain::testing {

using namespace two_plates;

BOOST_AUTO_TEST_SUITE(joined_bodies)

namespace {

const SolverOptions direct{.threads = 1, .method = SolverMethod::direct};
const SolverOptions by_factor{
    .threads = 1, .method = SolverMethod::iterative, .corner_method = CornerMethod::factor};
const SolverOptions by_aggregation{
    .threads = 1, .method = SolverMethod::iterative, .corner_method = CornerMethod::aggregation};

struct Result {
  Eigen::VectorXd u;
  SolveReport report;
};

Result solve(const TwoPlates& plates, const StiffnessAdditions& additions,
             const Eigen::VectorXd& load, const SolverOptions& options) {
  StaticSolver solver(plates.mesh, plates.held, options);
  solver.set_additions(additions);
  solver.set_material(plates.field);
  Result result{solver.solve(load), {}};
  result.report = solver.report();
  return result;
}

/// By Eigen's sparse factor of the stiffness of both plates, element by element from
/// internal_forces, and of the additions.
Eigen::VectorXd reference(const TwoPlates& plates, const StiffnessAdditions& additions,
                          const Eigen::VectorXd& load) {
  StaticSolver solver(plates.mesh, plates.held, direct);
  solver.set_material(plates.field);
  const auto n = plates.mesh.unknowns();
  std::vector<Eigen::Triplet<double>> entries;
  std::vector<char> held(n, 0);
  for (const auto& constraint : plates.held)
    for (int k = 0; k < 3; ++k) held[3 * constraint.node + k] = 1;
  const auto put = [&](Eigen::Index i, Eigen::Index j, double value) {
    if (value != 0.0 && !held[i] && !held[j]) entries.emplace_back(i, j, value);
  };
  for (Eigen::Index first = 0; first < n; first += 300) {
    const auto count = std::min<Eigen::Index>(300, n - first);
    Eigen::MatrixXd unit = Eigen::MatrixXd::Zero(n, count);
    for (Eigen::Index c = 0; c < count; ++c) unit(first + c, c) = 1.0;
    const Eigen::MatrixXd columns = solver.internal_forces(unit);
    for (Eigen::Index c = 0; c < count; ++c)
      for (Eigen::Index i = 0; i < n; ++i) put(i, first + c, columns(i, c));
  }
  for (const auto& spring : additions.springs)
    for (const auto& a : spring.shares)
      for (const auto& b : spring.shares)
        for (int k = 0; k < 3; ++k)
          for (int l = 0; l < 3; ++l)
            put(3 * a.node + k, 3 * b.node + l, spring.stiffness * a.direction[k] * b.direction[l]);
  for (const auto& [i, j, stiffness] : additions.blocks)
    for (int k = 0; k < 3; ++k)
      for (int l = 0; l < 3; ++l) {
        put(3 * i + k, 3 * j + l, stiffness(k, l));
        if (i != j) put(3 * j + l, 3 * i + k, stiffness(k, l));
      }
  Eigen::VectorXd f = load;
  for (Eigen::Index i = 0; i < n; ++i)
    if (held[i]) {
      entries.emplace_back(i, i, 1.0);
      f[i] = 0.0;
    }
  Eigen::SparseMatrix<double> K(n, n);
  K.setFromTriplets(entries.begin(), entries.end());
  const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor(K);
  BOOST_REQUIRE(factor.info() == Eigen::Success);
  return factor.solve(f);
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_plate_held_by_its_bedding_alone_is_found_in_few_iterations) {
  const TwoPlates plates(3);
  const auto load = plates.bending();
  for (const double stiffness : {0.1, 10.0, 1000.0}) {
    const auto bedding = plates.bedding(stiffness);
    const auto expected = reference(plates, bedding, load);
    for (const auto& options : {direct, by_factor, by_aggregation}) {
      const auto found = solve(plates, bedding, load, options);
      BOOST_TEST_CONTEXT(found.report.method << ", k h / E = " << stiffness) {
        BOOST_TEST(near(found.u, expected, 1e-7));
        BOOST_TEST(found.report.iterations <= (options.method == SolverMethod::direct ? 3 : 60));
        BOOST_TEST(found.report.method.find("gave up") == std::string::npos);
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(iterations_on_a_bedding_do_not_grow_with_the_mesh) {
  for (const auto& options : {by_factor, by_aggregation})
    for (const int fineness : {3, 6}) {
      const TwoPlates plates(fineness);
      for (const double stiffness : {10.0, 1000.0}) {
        const auto found = solve(plates, plates.bedding(stiffness), plates.bending(), options);
        BOOST_TEST_CONTEXT(found.report.method << ", fineness " << fineness << ", " << stiffness) {
          BOOST_TEST(found.report.iterations <= 40);
        }
      }
    }
}

BOOST_AUTO_TEST_CASE(a_lid_that_only_eight_screws_hold_is_found) {
  const TwoPlates plates(3);
  const auto screws = plates.eight_screws(2e4);
  const auto expected = reference(plates, screws, plates.bending());
  for (const auto& options : {direct, by_factor, by_aggregation}) {
    const auto found = solve(plates, screws, plates.bending(), options);
    BOOST_TEST_CONTEXT(found.report.method) {
      BOOST_TEST(near(found.u, expected, 1e-7));
      BOOST_TEST(found.report.iterations <= 60);
    }
  }
}

BOOST_AUTO_TEST_CASE(a_plate_that_may_slide_is_solved_where_its_load_balances_and_refused_else) {
  const TwoPlates plates(3);
  const auto bedding = plates.bedding(10.0, {0, 0, 1});
  for (const auto& options : {direct, by_factor}) {
    const auto pressed = solve(plates, bedding, plates.bending(), options);
    BOOST_TEST(pressed.report.relative_residual < 1e-8);
    BOOST_TEST(refused(
        [&] {
          solve(plates, bedding, plates.push({1, 0, 0}), options);
        },
        "nothing holds bodies 1, 2 against it: resultant force (1, 0, 0) N"));
    const StiffnessAdditions none;
    BOOST_TEST(refused(
        [&] {
          solve(plates, none, plates.push({0, 0, -1}), options);
        },
        "nothing holds body 2 against it"));
  }
}

BOOST_AUTO_TEST_CASE(faces_that_open_and_close_need_no_new_pattern_and_end_right) {
  const TwoPlates plates(3);
  const auto bedding = plates.bedding(10.0);
  auto partly = bedding;
  plates.open_where(partly, [](const Eigen::Vector3d& at) { return at.x() < 0.3 * length; });
  const auto expected = reference(plates, partly, plates.bending());
  for (const auto& options : {direct, by_factor, by_aggregation}) {
    StaticSolver solver(plates.mesh, plates.held, options);
    solver.set_additions(bedding);
    solver.set_material(plates.field);
    const Eigen::VectorXd closed = solver.solve(plates.bending());
    solver.set_additions(partly);
    BOOST_TEST(near(solver.solve(plates.bending()), expected, 1e-7));
    solver.set_additions(bedding, Renewal::at_once);
    BOOST_TEST(near(solver.solve(plates.bending()), closed, 1e-7));
  }
}

BOOST_AUTO_TEST_CASE(threads_do_not_change_what_is_found) {
  const TwoPlates plates(6);
  auto additions = plates.bedding(10.0);
  const auto screws = plates.eight_screws(2e4);
  additions.springs = screws.springs;
  for (auto options : {by_factor, by_aggregation}) {
    const auto one = solve(plates, additions, plates.bending(), options);
    options.threads = 3;
    const auto three = solve(plates, additions, plates.bending(), options);
    BOOST_TEST((one.u.array() == three.u.array()).all());
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
