// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/seal_criteria.h"

#include <boost/test/unit_test.hpp>
#include <limits>
#include <stdexcept>

#include "cases/joint/gasket_stiffness.h"

using namespace crossgrain;
using boost::test_tools::tolerance;

BOOST_AUTO_TEST_SUITE(seal_criteria)

BOOST_AUTO_TEST_CASE(soft_and_hard_rubber_need_what_the_code_says) {
  // ASME VIII-1 Appendix 2, Table 2-5.1; 200 psi = 1.38 MPa.
  BOOST_TEST(rubber_gasket_constants(60.0).m == 0.5);
  BOOST_TEST(rubber_gasket_constants(60.0).y == 0.0);
  BOOST_TEST(rubber_gasket_constants(75.0).m == 1.0);
  BOOST_TEST(rubber_gasket_constants(75.0).y == 1.38);
}

BOOST_AUTO_TEST_CASE(contact_never_needs_less_than_the_fluids_pressure_and_a_margin) {
  BOOST_TEST(contact_in_service(0.4, 0.5, 0.5) == 0.6, tolerance(1e-12));
  BOOST_TEST(contact_in_service(0.4, 1.0, 0.5) == 0.8, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_gasket_without_seating_stress_still_needs_its_squeeze) {
  const AssemblyContact usual = contact_at_assembly(0.0, std::nullopt, 5.0);
  BOOST_TEST(usual.pressure == pressure_at_squeeze(0.2, 5.0), tolerance(1e-12));
  BOOST_TEST((usual.standing == LimitStanding::memory));

  const AssemblyContact stated = contact_at_assembly(0.0, 0.25, 5.0);
  BOOST_TEST(stated.pressure == pressure_at_squeeze(0.25, 5.0), tolerance(1e-12));
  BOOST_TEST((stated.standing == LimitStanding::given));
}

BOOST_AUTO_TEST_CASE(the_greater_of_seating_stress_and_squeeze_is_needed) {
  BOOST_TEST(contact_at_assembly(1.38, 0.1, 5.0).pressure == 1.38);
  BOOST_TEST(contact_at_assembly(1.38, 0.4, 5.0).pressure == pressure_at_squeeze(0.4, 5.0),
             tolerance(1e-12));
  BOOST_TEST(contact_at_assembly(1.38, std::nullopt, 5.0).pressure == 1.38);
}

BOOST_AUTO_TEST_CASE(numbers_that_make_no_sense_are_refused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  BOOST_CHECK_THROW(contact_in_service(nan, 0.5, 0.5), std::invalid_argument);
  BOOST_CHECK_THROW(contact_in_service(0.4, 0.5, -0.1), std::invalid_argument);
  BOOST_CHECK_THROW(contact_at_assembly(0.0, 0.0, 5.0), std::invalid_argument);
  BOOST_CHECK_THROW(rubber_gasket_constants(nan), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
