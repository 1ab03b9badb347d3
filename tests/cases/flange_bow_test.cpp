// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/flange_bow.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

using namespace crossgrain;
using boost::test_tools::tolerance;

BOOST_AUTO_TEST_SUITE(flange_bow)

BOOST_AUTO_TEST_CASE(a_stiff_flange_presses_evenly) {
  const BowedContact contact = bowed_contact(0.01, 0.0);

  BOOST_TEST(contact.at_screw == 1.0, tolerance(1e-8));
  BOOST_TEST(contact.between == 1.0, tolerance(1e-8));
}

BOOST_AUTO_TEST_CASE(the_closed_form_is_the_sum_over_all_screws) {
  for (const double bow : {0.7, 2.0, 5.0}) {
    double at_screw = 0.0, between = 0.0;
    for (int n = -200; n <= 200; ++n) {
      const auto one = [](double z) { return std::exp(-z) * (std::cos(z) + std::sin(z)); };
      at_screw += one(std::abs(n) * bow);
      between += one(std::abs(n + 0.5) * bow);
    }

    BOOST_TEST(bowed_contact(bow, 0.0).at_screw == 0.5 * bow * at_screw, tolerance(1e-9));
    BOOST_TEST(bowed_contact(bow, 0.0).between == 0.5 * bow * between, tolerance(1e-9));
  }
}

BOOST_AUTO_TEST_CASE(a_gasket_relieved_of_all_opens_between_the_screws) {
  BOOST_TEST(bowed_contact(2.0, 1.0).between < 0.0);
  BOOST_TEST(bowed_contact(2.0, 1.0).at_screw > 0.0);
}

BOOST_AUTO_TEST_CASE(the_bow_number_is_that_of_the_row_as_uneven) {
  for (const double bow : {0.5, 1.5, std::numbers::pi, 4.5}) {
    const BowedContact contact = bowed_contact(bow, 0.0);
    BOOST_TEST(bow_number(contact.between / contact.at_screw) == bow, tolerance(1e-9));
  }
  // tanh(phi / 2) = -tan(phi / 2).
  BOOST_TEST(std::abs(std::tanh(0.5 * nothing_between) + std::tan(0.5 * nothing_between)) < 1e-3);
  BOOST_TEST(bow_number(-0.2) == nothing_between);
  BOOST_TEST(bow_number(1.0) == 0.0);
  BOOST_TEST(bow_number(1.3) == 0.0);
}

BOOST_AUTO_TEST_CASE(numbers_that_make_no_sense_are_refused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  BOOST_TEST(std::isnan(bow_number(nan)));
  BOOST_CHECK_THROW(bowed_contact(nan, 0.0), std::invalid_argument);
  BOOST_CHECK_THROW(bowed_contact(1.0, 1.5), std::invalid_argument);
  BOOST_CHECK_THROW(usual_pitch_limit(5.0, nan, 0.5), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
