// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/allowable_pressure.h"

#include <boost/test/unit_test.hpp>

#include "cases/judgement/factor_range.h"
#include "tests/cases/uniform_sites.h"

using namespace crossgrain;
using namespace crossgrain::testing;
namespace tt = boost::test_tools;

namespace {

constexpr double rounding = 1e-12;

/// Tension across the layers of an upright bar (Zt = 20 MPa), held and scaling [MPa].
CaseResult upright(const LoadCase& load_case, double held, double scaling,
                   const LayeredStrength& strength = round_strength()) {
  return judge_case(load_case,
                    stressed(1, voigt(0, 0, held, 0, 0, 0), voigt(0, 0, scaling, 0, 0, 0)),
                    row_of_sites(1), printed_along({0, 0, 1}),
                    {{Strength(strength)}, Criterion::interactive}, {});
}

}  // namespace

BOOST_AUTO_TEST_SUITE(allowable_pressure)

BOOST_AUTO_TEST_CASE(without_held_loads_is_the_working_pressure_times_factor_over_target) {
  const auto result = upright(pressure_case(0.4), 0.0, 4.0);

  BOOST_TEST(*result.allowable_pressure_MPa == 0.4 * 5.0 / 3.0, tt::tolerance(rounding));
  BOOST_TEST(result.allowable_limited_by == std::string(words_for(FailureMode::interlayer)));
}

// The factor on all loads asks 3 (5 + q 3) <= 20, the pressure factor 5 + 3 q 3 <= 20: the first
// is the harder, q = 5/9.
BOOST_AUTO_TEST_CASE(meets_the_factor_on_all_loads_and_the_pressure_factor) {
  const auto result = upright(pressure_case(0.4), 5.0, 3.0);

  BOOST_TEST(*result.allowable_pressure_MPa == 0.4 * 5.0 / 9.0, tt::tolerance(rounding));
}

// Held compression helps the factor on all loads: 3 (-6 + q 4) <= 20 allows q = 19/6; the pressure
// factor asks -6 + 3 q 4 <= 20, q = 13/6.
BOOST_AUTO_TEST_CASE(is_set_by_the_pressure_factor_where_held_loads_help) {
  const auto result = upright(pressure_case(0.4), -6.0, 4.0);

  BOOST_TEST(*result.allowable_pressure_MPa == 0.4 * 13.0 / 6.0, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(as_working_pressure_would_just_meet_the_target) {
  const double allowable = *upright(pressure_case(0.4), 5.0, 3.0).allowable_pressure_MPa;

  const auto again = upright(pressure_case(allowable), 5.0, 3.0 * allowable / 0.4);

  const auto least_of_both = least(again.all_loads.factor.value, again.scaling_loads.factor.value);
  BOOST_TEST(*least_of_both == 3.0, tt::tolerance(rounding));
  BOOST_TEST(*again.allowable_pressure_MPa == allowable, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(is_nothing_where_the_held_loads_alone_miss_the_target) {
  const auto result = upright(pressure_case(0.4), 10.0, 1.0);

  BOOST_TEST(*result.allowable_pressure_MPa == 0.0);
  BOOST_TEST(result.allowable_limited_by ==
             std::string(words_for(FailureMode::interlayer)) + " under the held loads alone");
}

BOOST_AUTO_TEST_CASE(ends_with_margin_where_the_joint_opens) {
  auto load_case = pressure_case(0.4);
  load_case.largest_lambda = 2.0;
  load_case.largest_lambda_reason = "the gasket is relieved: the joint 'flange' opens";

  const auto result = upright(load_case, 0.0, 4.0);

  BOOST_TEST(*result.scaling_loads.factor.value == 2.0);
  BOOST_TEST(result.scaling_loads.limited_by == load_case.largest_lambda_reason);
  BOOST_TEST(!result.scaling_loads.governing.has_value());
  BOOST_TEST(*result.scaling_loads.modes.front().factor.value == 5.0, tt::tolerance(rounding));
  BOOST_TEST(*result.all_loads.factor.value == 5.0, tt::tolerance(rounding));  // preload too
  BOOST_TEST(*result.allowable_pressure_MPa == 0.4 * 2.0 / 3.0, tt::tolerance(rounding));
  BOOST_TEST(result.allowable_limited_by == load_case.largest_lambda_reason);
}

BOOST_AUTO_TEST_CASE(a_cap_beyond_the_strength_changes_nothing) {
  auto load_case = pressure_case(0.4);
  load_case.largest_lambda = 7.0;
  load_case.largest_lambda_reason = "the gasket is relieved";

  const auto result = upright(load_case, 0.0, 4.0);

  BOOST_TEST(*result.scaling_loads.factor.value == 5.0, tt::tolerance(rounding));
  BOOST_TEST(result.scaling_loads.limited_by == "");
  BOOST_TEST(result.scaling_loads.governing.has_value());
}

BOOST_AUTO_TEST_CASE(caps_a_case_without_a_limit_of_strength) {
  auto load_case = pressure_case(0.4);
  load_case.largest_lambda = 2.0;
  load_case.largest_lambda_reason = "the gasket is relieved";
  const Yardstick brittle{{Strength(BrittleStrength{30.0})}, Criterion::interactive};

  const auto result =
      judge_case(load_case, stressed(1, Vector6d::Zero(), voigt(-1, -1, -1, 0, 0, 0)),
                 row_of_sites(1), printed_along({0, 0, 1}), brittle, {});

  BOOST_TEST(!result.all_loads.factor.value.has_value());
  BOOST_TEST(*result.scaling_loads.factor.value == 2.0);
}

// Gauge pressure ends at -0.101325 MPa (ISO 2533).
BOOST_AUTO_TEST_CASE(of_a_vacuum_ends_at_the_perfect_one) {
  const auto strong = upright(pressure_case(-0.08), 0.0, 0.5);
  const auto weak = upright(pressure_case(-0.08), 0.0, 6.0);

  BOOST_TEST(*strong.allowable_pressure_MPa == -0.101325, tt::tolerance(rounding));
  BOOST_TEST(strong.allowable_limited_by == "nothing: even a perfect vacuum holds");
  BOOST_TEST(*weak.allowable_pressure_MPa == -0.08 * 20.0 / 6.0 / 3.0, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(carries_the_range_of_the_constants) {
  auto result = upright(pressure_case(0.4), 0.0, 4.0);

  widen_range(result, upright(pressure_case(0.4), 0.0, 4.0, {50, 60, 16, 45, 12}));
  widen_range(result, upright(pressure_case(0.4), 0.0, 4.0, {50, 60, 24, 45, 12}));

  BOOST_TEST(*result.all_loads.factor.value == 5.0, tt::tolerance(rounding));
  BOOST_TEST(*result.all_loads.factor.low == 4.0, tt::tolerance(rounding));
  BOOST_TEST(*result.all_loads.factor.high == 6.0, tt::tolerance(rounding));
  BOOST_TEST(*result.all_loads.governing->factor.low == 4.0, tt::tolerance(rounding));
  BOOST_TEST(*result.scaling_loads.factor.low == 4.0, tt::tolerance(rounding));
  BOOST_TEST(*result.allowable_pressure_low_MPa == 0.4 * 4.0 / 3.0, tt::tolerance(rounding));
  BOOST_TEST(*result.allowable_pressure_high_MPa == 0.4 * 6.0 / 3.0, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(widening_keeps_no_limit_as_the_high_end) {
  FactorRange range = only(4.0);

  widen_range(range, FactorRange{});

  BOOST_TEST(*range.low == 4.0);
  BOOST_TEST(!range.high.has_value());
}

BOOST_AUTO_TEST_SUITE_END()
