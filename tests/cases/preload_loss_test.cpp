// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/preload_loss.h"

#include <boost/test/unit_test.hpp>
#include <limits>
#include <stdexcept>

using namespace crossgrain;
using boost::test_tools::tolerance;

namespace {

const JointCompliance joint{2e-5, 6e-5, 2e-5};
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

}  // namespace

BOOST_AUTO_TEST_SUITE(preload_loss)

BOOST_AUTO_TEST_CASE(embedding_costs_a_stiff_joint_more) {
  BOOST_TEST(usual_embedding(2) == 0.010, tolerance(1e-12));
  BOOST_TEST(embedding_loss(0.01, joint) == 100.0, tolerance(1e-12));
  BOOST_CHECK_THROW(embedding_loss(nan, joint), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(a_long_screw_forgives_creep) {
  const JointCompliance springy{1e-3, 6e-5, 2e-5};
  const auto aged = [](JointCompliance fresh) {
    fresh.clamped /= 0.4;
    return fresh;
  };

  BOOST_TEST(kept_after_creep(joint, aged(joint)) == 1e-4 / 1.9e-4, tolerance(1e-12));
  BOOST_TEST(kept_after_creep(springy, aged(springy)) > 0.9);
  BOOST_CHECK_THROW(kept_after_creep(aged(joint), joint), std::invalid_argument);
  BOOST_CHECK_THROW(kept_after_creep(joint, {nan, 1e-4, 1e-4}), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(cold_lets_a_screw_on_plastic_go_slack_and_metal_alike_changes_nothing) {
  const double steel = 12e-6;

  // 10 mm (80 - 12) 1e-6 * -30 K = -0.0204 mm over 1e-4 mm/N.
  BOOST_TEST(thermal_change(-30.0, {{10.0, 80e-6}}, steel, joint) == -204.0, tolerance(1e-12));
  BOOST_TEST(thermal_change(-30.0, {{10.0, steel}}, steel, joint) == 0.0);
  BOOST_CHECK_THROW(thermal_change(10.0, {{10.0, nan}}, steel, joint), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
