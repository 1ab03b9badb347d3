// SPDX-License-Identifier: GPL-3.0-or-later
// A bar that is pulled until it presses on another: springs in parallel, worked out by hand.
#include "cases/judgement/followed_factor.h"

#include <boost/test/unit_test.hpp>

#include "tests/cases/bars_with_gap.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

BOOST_AUTO_TEST_SUITE(followed_factor)

BOOST_AUTO_TEST_CASE(
    a_bar_that_comes_to_press_on_another_carries_more_than_the_straight_line_says) {
  BarsWithGap bars;
  // At multiple 1 the gap is open: a bar alone.
  BOOST_TEST(*bars.results[0].scaling_loads.factor.value == across_layers / pull, tolerance(1e-3));

  const auto followed = follow_factors(bars.results, bars.solver, bars.model(), bars.loading,
                                       bars.field, bars.solution);

  BOOST_REQUIRE(followed.size() == 1u);
  BOOST_TEST(followed[0].unsettled == "");
  // From `closes` on both bars share what comes on top: (q + closes) / 2 of the pull in the lower.
  BOOST_TEST(*followed[0].judgement.factor.value == 2.0 * across_layers / pull - closes,
             tolerance(0.02));
}

BOOST_AUTO_TEST_CASE(a_followed_factor_keeps_the_ratios_of_its_range_and_never_raises_a_pressure) {
  BarsWithGap bars;
  CaseResult& result = bars.results[0];
  result.scaling_loads.factor.low = 0.5 * *result.scaling_loads.factor.value;
  const double before = *result.allowable_pressure_MPa;
  const auto followed = follow_factors(bars.results, bars.solver, bars.model(), bars.loading,
                                       bars.field, bars.solution);
  BOOST_REQUIRE(followed.size() == 1u);

  take_in(followed[0], result);

  BOOST_TEST(*result.scaling_loads.factor.value > 6.0);
  BOOST_TEST(*result.scaling_loads.factor.low == 0.5 * *result.scaling_loads.factor.value,
             tolerance(1e-12));
  BOOST_TEST(*result.allowable_pressure_MPa == before, tolerance(1e-12));
  BOOST_REQUIRE(result.followed.has_value());
  BOOST_TEST(*result.followed->straight_line == across_layers / pull, tolerance(1e-3));
}

BOOST_AUTO_TEST_CASE(what_cannot_be_followed_keeps_the_straight_line_and_says_so) {
  BarsWithGap bars;
  CaseResult& result = bars.results[0];
  FollowedFactor lost{.load_case = 0, .multiple = 4.0, .unsettled = "the iteration does not end"};

  take_in(lost, result);

  BOOST_TEST(*result.scaling_loads.factor.value == across_layers / pull, tolerance(1e-3));
  BOOST_TEST(result.followed->unsettled == "the iteration does not end");
}

BOOST_AUTO_TEST_CASE(bodies_that_are_not_joined_need_not_be_followed) {
  BarsWithGap bars;
  bars.loading.joined.reset();

  BOOST_TEST(follow_factors(bars.results, bars.solver, bars.model(), bars.loading, bars.field,
                            bars.solution)
                 .empty());
}

BOOST_AUTO_TEST_SUITE_END()
