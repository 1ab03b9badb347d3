// SPDX-License-Identifier: GPL-3.0-or-later
// Inserts pulled out of plastic, preload that creeps and warms away: facts of the trade.
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "cases/joint/boss.h"
#include "cases/joint/insert_pull_out.h"
#include "cases/joint/preload_loss.h"
#include "tests/verification/check_table.h"

namespace crossgrain::verification {
namespace {

BOOST_AUTO_TEST_SUITE(insert)

BOOST_AUTO_TEST_CASE(an_estimated_pull_out_covers_a_measured_one) {
  // Insert 10 x 13 (usual for M8) and 29 MPa of shear strength (0.6 of 48 MPa) from memory; the
  // paper's abstract gives the force only.
  const HoldingForce estimate = estimated_pull_out({10.0, 13.0}, {29.0, 29.0, 29.0});
  const double measured = 3830.0;

  check({Chapter::trade_facts, "C6 insert",
         "heat-set M8 insert in sintered PA12: pull-out force, estimate [N]",
         "Śliwka and Wójcik, Polymers 18(1):112; size and shear strength from memory", measured,
         within_factor(1.6, "the estimate's own range, 0.25 to 0.7 about 0.4")},
        estimate.value);
  BOOST_TEST(estimate.low < measured);
  BOOST_TEST(estimate.high > measured);
}

BOOST_AUTO_TEST_CASE(a_wedge_splits_a_boss_as_a_pressure_does_a_tube) {
  // 20 / 30 under 10 MPa: hoop 26 at the bore; pull = p pi d L / tan 30.
  const double pull = 10.0 * 3.141592653589793 * 20.0 * 8.0 * std::sqrt(3.0);
  check({Chapter::screws, "B1 boss", "boss 20 / 30 wedged by 10 MPa: stress round the insert",
         "Lamé, exact closed form", 26, fraction(1e-9, "closed form")},
        hoop_split_stress(pull, {20.0, 8.0}, 30.0));
}

BOOST_AUTO_TEST_CASE(plastic_lets_go_of_a_preload_as_is_known) {
  // A steel screw on plastic of which 1000 h leave 0.4 to 0.6 of the modulus.
  const JointCompliance fresh{5.75e-6, 9.883e-5, 0.0};
  const JointCompliance aged{5.75e-6, 9.883e-5 / 0.5, 0.0};
  check({Chapter::trade_facts, "C6 creep",
         "steel screw on plastic of half its modulus after weeks: share of preload lost",
         "30 to 60 % without limiters (common practice, from memory)", 0.45,
         absolute(0.15, "the range that is known")},
        1.0 - kept_after_creep(fresh, aged));
}

BOOST_AUTO_TEST_CASE(warmth_stretches_a_screw_by_what_plastic_outgrows_it) {
  // 40 K, 10 mm of plastic at 85e-6 against steel's 11.5e-6: 0.03 mm; the joint's give makes the
  // force of it.
  const JointCompliance joint{5.75e-6, 9.883e-5, 0.0};
  check({Chapter::trade_facts, "C thermal",
         "40 K across 10 mm of plastic under a steel screw: stretch of both",
         "by hand from expansions usual for plastic and steel (from memory)", 0.03,
         fraction(0.05, "one digit of the target")},
        thermal_change(40.0, {{10.0, 85e-6}}, 11.5e-6, joint) * joint.sum());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
