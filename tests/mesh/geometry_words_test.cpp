// SPDX-License-Identifier: GPL-3.0-or-later
// How messages write numbers and places.
#include "mesh/geometry/geometry_words.h"

#include <boost/test/unit_test.hpp>
#include <limits>

namespace crossgrain::testing {

BOOST_AUTO_TEST_SUITE(geometry_words)

BOOST_AUTO_TEST_CASE(numbers_have_four_digits_and_no_exponent) {
  BOOST_TEST(words(400.0) == "400");
  BOOST_TEST(words(3.14159) == "3.142");
  BOOST_TEST(words(9.99996) == "10");
  BOOST_TEST(words(0.0037417) == "0.003742");
  BOOST_TEST(words(100.0) == "100");
  BOOST_TEST(words(14642817.3) == "14642817");
  BOOST_TEST(words(-2.5) == "-2.5");
  BOOST_TEST(words(0.0) == "0");
  BOOST_TEST(words(-0.0) == "0");
  BOOST_TEST(words(6.3e-14) == "6.3e-14");
}

BOOST_AUTO_TEST_CASE(rounding_in_a_place_reads_as_zero) {
  BOOST_TEST(words(Eigen::Vector3d(1, -6.3e-14, 50)) == "(1, 0, 50)");
  BOOST_TEST(words(Eigen::Vector3d(-6.3e-14, 2e-15, -0.0)) == "(0, 0, 0)");
  BOOST_TEST(words(Eigen::Vector3d(0.0005, 2, 1000)) == "(0, 2, 1000)");
  BOOST_TEST(words(Eigen::Vector3d(0.25, -0.125, 0)) == "(0.25, -0.125, 0)");
}

BOOST_AUTO_TEST_CASE(a_place_that_is_not_finite_reads_as_it_is) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinity = std::numeric_limits<double>::infinity();

  BOOST_TEST(words(Eigen::Vector3d(nan, 1e-9, infinity)) == "(nan, 0, inf)");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
