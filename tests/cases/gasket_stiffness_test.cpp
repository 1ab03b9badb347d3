// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/gasket_stiffness.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "cases/joint/rubber_modulus.h"

using namespace crossgrain;
using boost::test_tools::tolerance;

BOOST_AUTO_TEST_SUITE(gasket_stiffness)

BOOST_AUTO_TEST_CASE(a_hardness_that_says_too_little_is_refused) {
  for (const double hardness : {19.0, 97.0, std::numeric_limits<double>::quiet_NaN()}) {
    BOOST_CHECK_THROW(modulus_by_hardness(hardness), std::invalid_argument);
  }
}

BOOST_AUTO_TEST_CASE(harder_is_stiffer_and_lies_in_its_own_range) {
  double softer = 0.0;
  for (double hardness = 20.0; hardness <= 96.0; hardness += 1.0) {
    const RubberModulus modulus = modulus_by_hardness(hardness);
    BOOST_TEST(modulus.value > softer);
    BOOST_TEST(modulus.low < modulus.value);
    BOOST_TEST(modulus.high > modulus.value);
    softer = modulus.value;
  }
}

BOOST_AUTO_TEST_CASE(no_shape_stiffens_beyond_the_bulk) {
  const GasketShape wide{GasketForm::strip, GasketFaces::held, 400.0, 1.0};

  const double modulus = apparent_modulus(wide, 4.0, 2000.0);

  BOOST_TEST(modulus < 2000.0);
  BOOST_TEST(modulus > 1900.0);
}

BOOST_AUTO_TEST_CASE(a_small_squeeze_follows_the_modulus_and_a_large_one_stiffens) {
  BOOST_TEST(pressure_at_squeeze(1e-6, 10.0) == 1e-5, tolerance(1e-5));
  // l = 0.5: 10 / 3 (4 - 0.5).
  BOOST_TEST(pressure_at_squeeze(0.5, 10.0) == 11.6667, tolerance(1e-5));
}

BOOST_AUTO_TEST_CASE(squeeze_and_pressure_are_each_others_inverse) {
  for (const double squeeze : {0.0, 0.05, 0.3, 0.89}) {
    BOOST_TEST(std::abs(squeeze_at_pressure(pressure_at_squeeze(squeeze, 7.0), 7.0) - squeeze) <
               1e-12);
  }
  BOOST_CHECK_THROW(squeeze_at_pressure(1e6, 7.0), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(a_gasket_without_thickness_is_refused) {
  const GasketShape none{GasketForm::disc, GasketFaces::held, 10.0, 0.0};

  BOOST_CHECK_THROW(apparent_modulus(none, 4.0, 2000.0), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
