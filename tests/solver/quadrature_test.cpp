// SPDX-License-Identifier: GPL-3.0-or-later
// Against the exact integrals of monomials over the unit simplex, a! b! c! / (a + b + c + dim)!
// (Dirichlet's formula).
#include "solver/elements/quadrature.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/elements/shape_functions.h"
#include "solver/loads/loads.h"
#include "solver/static_solver.h"
#include "tests/solver/example_materials.h"
#include "tests/support/conical_rule.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

double factorial(int n) { return std::tgamma(n + 1.0); }

/// Largest error over the monomials of exactly this degree, relative to the exact integral.
double worst_error(const TetrahedronRule& rule, int degree) {
  double worst = 0.0;
  for (int a = 0; a <= degree; ++a) {
    for (int b = 0; a + b <= degree; ++b) {
      const int c = degree - a - b;
      double sum = 0.0;
      for (Eigen::Index q = 0; q < rule.size(); ++q)
        sum += rule.weights[q] * std::pow(rule.points(0, q), a) * std::pow(rule.points(1, q), b) *
               std::pow(rule.points(2, q), c);
      const double exact = factorial(a) * factorial(b) * factorial(c) / factorial(degree + 3);
      worst = std::max(worst, std::abs(sum / exact - 1.0));
    }
  }
  return worst;
}

double worst_error(const TriangleRule& rule, int degree) {
  double worst = 0.0;
  for (int a = 0; a <= degree; ++a) {
    double sum = 0.0;
    for (Eigen::Index q = 0; q < rule.size(); ++q)
      sum += rule.weights[q] * std::pow(rule.points(0, q), a) *
             std::pow(rule.points(1, q), degree - a);
    const double exact = factorial(a) * factorial(degree - a) / factorial(degree + 2);
    worst = std::max(worst, std::abs(sum / exact - 1.0));
  }
  return worst;
}

template <class Rule>
void require_degree(const Rule& rule) {
  for (int degree = 0; degree <= rule.degree; ++degree)
    BOOST_TEST(worst_error(rule, degree) < 1e-13);        // round-off of 46 terms
  BOOST_TEST(worst_error(rule, rule.degree + 1) > 1e-6);  // and no more than stated
  BOOST_TEST(rule.weights.minCoeff() > 0.0);
  BOOST_TEST(rule.points.minCoeff() > 0.0);
  BOOST_TEST(rule.points.colwise().sum().maxCoeff() < 1.0);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(quadrature)

BOOST_AUTO_TEST_CASE(tetrahedron_rules_integrate_just_their_stated_degree) {
  for (int degree : {2, 5, 6, 8}) {
    BOOST_TEST_CONTEXT("degree " << degree) {
      BOOST_TEST(tetrahedron_rule(degree).degree == degree);
      require_degree(tetrahedron_rule(degree));
    }
  }
  BOOST_TEST(tetrahedron_rule(2).size() == 4);
  BOOST_TEST(tetrahedron_rule(5).size() == 14);
  BOOST_TEST(tetrahedron_rule(6).size() == 24);
  BOOST_TEST(tetrahedron_rule(8).size() == 46);
}

BOOST_AUTO_TEST_CASE(the_conical_rule_that_others_are_checked_by_has_its_degree) {
  for (int n : {2, 4, 6}) require_degree(conical_rule(n));
}

BOOST_AUTO_TEST_CASE(two_degrees_more_change_the_energy_of_curved_elements_below_one_in_1e8) {
  // A pipe of twelve elements a turn, wall a fifth of the radius, under pressure.
  const auto pipe = block_mesh({3, 2, 2}, [](const Eigen::Vector3d& u) {
    const double r = 10.0 + 2.0 * u.y(), angle = 0.5 * M_PI * u.x();
    return Eigen::Vector3d(r * std::cos(angle), r * std::sin(angle), 4.0 * u.z());
  });
  const auto constraints = constraints_of(pipe, {{"end", {zeta_low}}});
  const auto load = pressure_load(pipe, {eta_low}, [](const auto&) { return 1.0; });
  const auto energy = [&](const TetrahedronRule& rule) {
    StaticSolver solver(pipe, constraints, {}, rule);
    solver.set_material(uniform_field(pipe, {nine_constant_solid()}, {skew_frame()}));
    return 0.5 * load.dot(solver.solve(load).col(0));
  };

  const double stated = energy(stiffness_rule()), more = energy(conical_rule(6));

  BOOST_TEST(conical_rule(6).degree >= stiffness_rule().degree + 2);
  BOOST_TEST(stated == more, boost::test_tools::tolerance(1e-8));
  // The check sees a rule that is too weak.
  BOOST_TEST(std::abs(energy(tetrahedron_rule(5)) / more - 1.0) > 1e-7);
}

BOOST_AUTO_TEST_CASE(the_surface_rule_integrates_just_its_stated_degree) {
  require_degree(surface_rule());
}

BOOST_AUTO_TEST_CASE(an_unknown_degree_is_refused) {
  BOOST_CHECK_EXCEPTION(tetrahedron_rule(7), std::invalid_argument, [](const auto& error) {
    return std::string(error.what()) ==
           "there are tetrahedron rules of degree 2, 5, 6 and 8, not 7";
  });
}

BOOST_AUTO_TEST_CASE(shape_functions_are_one_at_their_node_and_gradients_follow_them) {
  const auto nodes = tetrahedron_nodes();
  for (int a = 0; a < 10; ++a)
    BOOST_TEST(near(tetrahedron_shape(nodes.col(a)), TetrahedronShape::Unit(a), 1e-15));
  const auto corners = triangle_nodes();
  for (int a = 0; a < 6; ++a)
    BOOST_TEST(near(triangle_shape(corners.col(a)), TriangleShape::Unit(a), 1e-15));

  // Central differences are exact for quadratics.
  const Eigen::Vector3d at(0.2, 0.3, 0.1);
  const double h = 0.01;
  for (int d = 0; d < 3; ++d) {
    const Eigen::Vector3d step = h * Eigen::Vector3d::Unit(d);
    const TetrahedronShape slope =
        (tetrahedron_shape(at + step) - tetrahedron_shape(at - step)) / (2 * h);
    BOOST_TEST(near(tetrahedron_local_gradients(at).row(d).transpose(), slope, 1e-12));
  }
  for (int d = 0; d < 2; ++d) {
    const Eigen::Vector2d step = h * Eigen::Vector2d::Unit(d);
    const TriangleShape slope =
        (triangle_shape(at.head<2>() + step) - triangle_shape(at.head<2>() - step)) / (2 * h);
    BOOST_TEST(near(triangle_local_gradients(at.head<2>()).row(d).transpose(), slope, 1e-12));
  }
}

BOOST_AUTO_TEST_SUITE_END()
