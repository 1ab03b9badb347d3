// SPDX-License-Identifier: GPL-3.0-or-later
#include <boost/test/unit_test.hpp>
#include <limits>
#include <stdexcept>

#include "cases/joint/boss.h"
#include "cases/joint/jacking.h"
#include "cases/joint/preload.h"

using namespace crossgrain;
using boost::test_tools::tolerance;

namespace {

const Insert m5{6.4, 9.5};
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

}  // namespace

BOOST_AUTO_TEST_SUITE(insert)

BOOST_AUTO_TEST_CASE(a_given_figure_is_knocked_down_as_the_plastic_is) {
  const HoldingForce force = given_pull_out(2000.0, {0.5, 0.4, 0.6});

  BOOST_TEST(force.value == 1000.0, tolerance(1e-12));
  BOOST_TEST(force.low == 800.0, tolerance(1e-12));
  BOOST_TEST(force.high == 1200.0, tolerance(1e-12));
  BOOST_TEST((force.standing == LimitStanding::given));
}

BOOST_AUTO_TEST_CASE(an_estimate_says_that_it_is_one_and_has_a_wide_range) {
  // pi 6.4 9.5 = 191.01 mm^2.
  const HoldingForce force = estimated_pull_out(m5, {10.0, 8.0, 12.0});

  BOOST_TEST((force.standing == LimitStanding::estimated));
  BOOST_TEST(force.value == 764.0, tolerance(1e-3));
  BOOST_TEST(force.low == 382.0, tolerance(1e-3));
  BOOST_TEST(force.high == 1604.5, tolerance(1e-3));
}

BOOST_AUTO_TEST_CASE(layers_of_a_slender_boss_tear_first) {
  // pi/4 (12^2 - 6.4^2) = 80.93 mm^2.
  BOOST_TEST(tear_off_stress(809.3, m5, 12.0) == 10.0, tolerance(1e-4));
  // Of a wide plate no more than the cone to 6.4 + 19 = 25.4 holds.
  BOOST_TEST(tear_off_stress(1000.0, m5, 25.4) == tear_off_stress(1000.0, m5, 400.0),
             tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_thin_boss_splits_as_a_thin_ring) {
  // p d / 2 t for t << d.
  const Insert wide{100.0, 10.0};
  const double pressure = 500.0 / 1.7320508 / (3.14159265 * 100.0 * 10.0);
  BOOST_TEST(hoop_split_stress(500.0, wide, 101.0) == pressure * 100.0, tolerance(0.02));
}

BOOST_AUTO_TEST_CASE(the_wall_of_a_boss_is_what_the_insert_leaves) {
  BOOST_TEST(boss_wall(m5, 11.2) == least_boss_wall, tolerance(1e-12));
  BOOST_CHECK_THROW(boss_wall(m5, 6.0), std::invalid_argument);
  BOOST_CHECK_THROW(boss_wall(m5, not_a_number), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(a_screw_that_bottoms_pulls_harder_than_one_that_clamps) {
  // 20 long, 12 clamped, hole 7: one short.
  BOOST_TEST(depth_under_tip(20.0, 12.0, 7.0) == -1.0, tolerance(1e-12));
  const ScrewSize& size = *find_screw_size("M5");
  const double torque = tightening_torque(1000.0, size, size.head_diameter, {0.2, 0.2});

  BOOST_TEST(jacking_force(torque, size, 0.2) > 1800.0);
  BOOST_TEST(thread_torque(jacking_force(torque, size, 0.2), size, 0.2) == torque,
             tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(figures_that_make_no_sense_are_refused) {
  BOOST_CHECK_THROW(given_pull_out(0.0, {}), std::invalid_argument);
  BOOST_CHECK_THROW(given_pull_out(100.0, {1.0, not_a_number, 1.0}), std::invalid_argument);
  BOOST_CHECK_THROW(estimated_pull_out({6.0, not_a_number}, {1.0, 1.0, 1.0}),
                    std::invalid_argument);
  BOOST_CHECK_THROW(tear_off_stress(not_a_number, m5, 12.0), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
