// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/buckling.h"

#include <boost/test/unit_test.hpp>

using namespace crossgrain;
namespace tt = boost::test_tools;

BOOST_AUTO_TEST_SUITE(buckling)

// Roark's Formulas for Stress and Strain, worked example of case 19a: steel tube of radius 6.75 in,
// wall 0.375 in, E 29e6 psi, nu 0.29 gives 1357 psi.
BOOST_AUTO_TEST_CASE(long_tube_agrees_with_the_handbook_s_worked_example) {
  // Four digits are printed.
  BOOST_TEST(long_tube_buckling_pressure(29e6, 0.29, 6.75, 0.375) == 1357.0, tt::tolerance(5e-4));
}

// von Mises 1929, E 2000, nu 0.35, r 25, t 2 (exact, five digits): three lobes, three, two.
BOOST_AUTO_TEST_CASE(short_tubes_agree_with_von_mises) {
  BOOST_TEST(tube_buckling_pressure(2000, 0.35, 25, 2, 50) == 1.9561, tt::tolerance(3e-5));
  BOOST_TEST(tube_buckling_pressure(2000, 0.35, 25, 2, 100) == 0.9483, tt::tolerance(6e-5));
  BOOST_TEST(tube_buckling_pressure(2000, 0.35, 25, 2, 200) == 0.3861, tt::tolerance(2e-4));
  BOOST_TEST(tube_buckling_pressure(2000, 0.35, 25, 2, 1e6) ==
                 long_tube_buckling_pressure(2000, 0.35, 25, 2),
             tt::tolerance(1e-6));
  BOOST_TEST(long_tube_buckling_pressure(2000, 0.35, 25, 2) == 0.2917, tt::tolerance(2e-4));
}

// Zoelly's sphere, E 2000, nu 0.35, R 25, t 1 (exact).
BOOST_AUTO_TEST_CASE(sphere_agrees_with_zoelly) {
  BOOST_TEST(sphere_buckling_pressure(2000, 0.35, 25, 1) == 3.9445, tt::tolerance(2e-5));
}

BOOST_AUTO_TEST_CASE(a_real_tube_keeps_two_fifths_of_a_perfect_one) {
  HandCalculationSpec spec;
  spec.shape = HandShape::thin_cylinder;
  spec.inner_radius = 24;
  spec.wall = 2;
  spec.length = 200;

  const BucklingResult result = check_buckling(spec, 0.1, 2000, 0.35);

  BOOST_TEST(result.applies);
  BOOST_TEST(result.checked);
  BOOST_TEST(*result.critical_pressure_MPa == 0.4 * 0.3861, tt::tolerance(2e-4));
  BOOST_TEST(*result.factor == 4 * 0.3861, tt::tolerance(2e-4));
  BOOST_TEST(result.statement.find("with the 0.4 of a perfectly round one's pressure") !=
             std::string::npos);
}

BOOST_AUTO_TEST_CASE(shapes_without_a_formula_are_said_not_to_be_checked) {
  HandCalculationSpec panel;
  panel.shape = HandShape::clamped_round_panel;
  panel.inner_radius = 40;
  panel.wall = 5;

  for (const HandCalculationSpec& spec : {panel, HandCalculationSpec{}}) {
    const BucklingResult result = check_buckling(spec, 0.09, 2000, 0.35);
    BOOST_TEST(result.applies);
    BOOST_TEST(!result.checked);
    BOOST_TEST(!result.factor.has_value());
    BOOST_TEST(result.statement.find("Buckling not checked") == 0u);
  }
}

BOOST_AUTO_TEST_CASE(inner_pressure_does_not_buckle) {
  BOOST_TEST(!check_buckling({}, -0.4, 2000, 0.35).applies);
}

BOOST_AUTO_TEST_SUITE_END()
