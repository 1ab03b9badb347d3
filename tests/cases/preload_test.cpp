// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/preload.h"

#include <boost/test/unit_test.hpp>
#include <stdexcept>

using namespace crossgrain;
using boost::test_tools::tolerance;

BOOST_AUTO_TEST_SUITE(preload)

BOOST_AUTO_TEST_CASE(a_torque_gives_the_preload_that_needs_it) {
  const ScrewSize& m5 = *find_screw_size("M5");

  const double torque = tightening_torque(1700.0, m5, 9.0, {0.18, 0.22});

  BOOST_TEST(preload_from_torque(torque, m5, 9.0, {0.18, 0.22}) == 1700.0, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(the_thread_takes_what_the_head_does_not) {
  // With next to no friction under the head nothing else is left.
  const ScrewSize& m4 = *find_screw_size("M4");

  BOOST_TEST(
      thread_torque(900.0, m4, 0.2) == tightening_torque(900.0, m4, m4.head_diameter, {0.2, 1e-12}),
      tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(without_friction_the_thread_alone_turns_torque_into_pull) {
  // Work of one turn: M 2 pi = F P. 0.159 is 1 / 2 pi to three digits, hence 2e-3.
  const ScrewSize& m5 = *find_screw_size("M5");

  const double torque = tightening_torque(1000.0, m5, m5.head_diameter, {1e-12, 1e-12});

  BOOST_TEST(torque == 1000.0 * 0.8 / 6.283185307, tolerance(2e-3));
}

BOOST_AUTO_TEST_CASE(friction_in_the_thread_and_under_the_head_do_not_change_places) {
  // By hand for M6: 0.577 (6 - 0.6495) = 3.0872 mm, (9.38 + 6.6) / 4 = 3.995 mm.
  const ScrewSize& m6 = *find_screw_size("M6");
  const double smooth = tightening_torque(1.0, m6, m6.head_diameter, {0.1, 0.1});

  BOOST_TEST(tightening_torque(1.0, m6, m6.head_diameter, {0.2, 0.1}) - smooth == 0.30872,
             tolerance(1e-4));
  BOOST_TEST(tightening_torque(1.0, m6, m6.head_diameter, {0.1, 0.2}) - smooth == 0.3995,
             tolerance(1e-4));
}

BOOST_AUTO_TEST_CASE(stress_areas_follow_the_formula_of_iso_898_1) {
  // As = pi/4 (d - 0.9382 P)^2; tables round to three digits.
  for (const ScrewSize& size : screw_sizes()) {
    const double diameter = size.diameter - 0.9382 * size.pitch;
    BOOST_TEST(size.stress_area == 0.7853981634 * diameter * diameter, tolerance(3e-3));
  }
}

BOOST_AUTO_TEST_CASE(a_scatter_below_one_or_not_a_number_is_refused) {
  BOOST_CHECK_THROW(scattered_preload(1000.0, 0.9), std::invalid_argument);
  BOOST_CHECK_THROW(scattered_preload(1000.0, 0.0 / 0.0), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(a_head_smaller_than_its_hole_is_refused) {
  const ScrewSize& m5 = *find_screw_size("M5");

  BOOST_CHECK_THROW(tightening_torque(1000.0, m5, 5.5, {0.1, 0.1}), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
