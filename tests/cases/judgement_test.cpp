// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/judgement.h"

#include <boost/test/unit_test.hpp>
#include <limits>
#include <random>

#include "cases/judgement/factor_range.h"
#include "tests/cases/uniform_sites.h"

using namespace crossgrain;
using namespace crossgrain::testing;
namespace tt = boost::test_tools;

// Every value here is a quotient of a few round numbers: only rounding stands between.
constexpr double rounding = 1e-12;

BOOST_AUTO_TEST_SUITE(judgement)

BOOST_AUTO_TEST_CASE(a_bar_pulled_along_its_build_direction_holds_Zt_and_lying_down_Xt) {
  const auto sites = row_of_sites(3);
  const auto pull = stressed(3, Vector6d::Zero(), voigt(0, 0, 8.0, 0, 0, 0));
  const auto judged_along = [&](const Eigen::Vector3d& build) {
    return judge_case(pressure_case(1.0), pull, sites, printed_along(build), layered_yardstick(),
                      {});
  };

  const auto upright = judged_along({0, 0, 1});
  const auto lying = judged_along({1, 0, 0});

  BOOST_TEST(*upright.all_loads.factor.value == 20.0 / 8.0, tt::tolerance(rounding));
  BOOST_TEST((upright.all_loads.governing->mode == FailureMode::interlayer));
  BOOST_TEST(*lying.all_loads.factor.value == 50.0 / 8.0, tt::tolerance(rounding));
  BOOST_TEST((lying.all_loads.governing->mode == FailureMode::in_layer_tension));
}

// Pull T at 30 degrees to the build direction: s33 = T cos^2, t = T sin cos, so 1/T^2 = cos^4/Zt^2
// + sin^2 cos^2/Sz^2 (references: the quadratic interlayer form, Brewer & Lagace 1988).
BOOST_AUTO_TEST_CASE(a_tilted_bar_feels_the_layer_tension_and_shear_together) {
  const auto sites = row_of_sites(1);
  const double angle = M_PI / 6;
  const auto pull = stressed(1, Vector6d::Zero(), voigt(0, 0, 1.0, 0, 0, 0));

  const auto result =
      judge_case(pressure_case(1.0), pull, sites,
                 printed_along({std::sin(angle), 0, std::cos(angle)}), layered_yardstick(), {});

  const double c = std::cos(angle), s = std::sin(angle);
  const double expected = 1.0 / std::sqrt(c * c * c * c / 400.0 + s * s * c * c / 144.0);
  BOOST_TEST(*result.all_loads.factor.value == expected, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(held_stress_uses_up_strength_before_the_scaling_one) {
  const auto sites = row_of_sites(2);
  const auto loaded = stressed(2, voigt(0, 0, 5.0, 0, 0, 0), voigt(0, 0, 3.0, 0, 0, 0));

  const auto result = judge_case(pressure_case(0.4), loaded, sites, printed_along({0, 0, 1}),
                                 layered_yardstick(), {});

  BOOST_TEST(*result.all_loads.factor.value == 20.0 / 8.0, tt::tolerance(rounding));
  BOOST_TEST(*result.scaling_loads.factor.value == (20.0 - 5.0) / 3.0, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(a_held_state_past_its_limit_leaves_no_multiplier) {
  const auto sites = row_of_sites(1);
  const auto loaded = stressed(1, voigt(0, 0, 21.0, 0, 0, 0), voigt(0, 0, -5.0, 0, 0, 0));

  const auto result = judge_case(pressure_case(0.4), loaded, sites, printed_along({0, 0, 1}),
                                 layered_yardstick(), {});

  // The pressure relieves the preload: the sum of both holds, the held state does not.
  BOOST_TEST(*result.all_loads.factor.value > 1.0);
  BOOST_TEST(*result.scaling_loads.factor.value == 0.0);
  BOOST_TEST(*result.allowable_pressure_MPa == 0.0);
}

BOOST_AUTO_TEST_CASE(no_crossing_is_no_limit_and_not_a_number) {
  const auto sites = row_of_sites(2);
  const Yardstick brittle{{Strength(BrittleStrength{30.0})}, Criterion::interactive};

  const auto judged =
      judge(sites, brittle, StressField(6, 0), uniform_stress(2, voigt(-9, -9, -9, 0, 0, 0)));

  BOOST_TEST(!judged.factor.value.has_value());
  BOOST_TEST(!judged.factor.low.has_value());
  BOOST_REQUIRE(judged.governing.has_value());
  BOOST_TEST(judged.governing->stress[0] == -9.0);
}

BOOST_AUTO_TEST_CASE(a_case_in_which_nothing_scales_has_no_pressure_factor) {
  const auto sites = row_of_sites(2);
  const auto held_only = stressed(2, voigt(0, 0, 5.0, 0, 0, 0), Vector6d::Zero());

  const auto result = judge_case(pressure_case(0.4), held_only, sites, printed_along({0, 0, 1}),
                                 layered_yardstick(), {});

  BOOST_TEST(*result.all_loads.factor.value == 4.0, tt::tolerance(rounding));
  BOOST_TEST(!result.scaling_loads.applies);
  BOOST_TEST(!result.allowable_pressure_MPa.has_value());
}

BOOST_AUTO_TEST_CASE(the_worst_point_is_told_with_its_place_body_face_and_stress) {
  auto sites = row_of_sites(5);
  sites.face[3] = FaceId{7};
  StressField stress = uniform_stress(5, voigt(0, 0, 1.0, 0, 0, 0));
  stress(2, 3) = 4.0;

  const auto judged = judge(sites, layered_yardstick(), StressField(6, 0), stress);

  BOOST_REQUIRE(judged.governing.has_value());
  BOOST_TEST(judged.governing->position[0] == 3.0);
  BOOST_TEST(judged.governing->body == "bar");
  BOOST_TEST((judged.governing->face == FaceId{7}));
  BOOST_TEST(judged.governing->stress[2] == 4.0);
  BOOST_TEST(judged.governing->stress_basis == "bead");
}

BOOST_AUTO_TEST_CASE(points_near_an_artificial_support_are_reported_apart) {
  auto sites = row_of_sites(4);
  sites.near_artificial[0] = 1;
  StressField stress = uniform_stress(4, voigt(0, 0, 2.0, 0, 0, 0));
  stress(2, 0) = 19.0;

  const auto judged = judge(sites, layered_yardstick(), StressField(6, 0), stress);

  BOOST_TEST(*judged.factor.value == 10.0, tt::tolerance(rounding));
  BOOST_REQUIRE(!judged.near_artificial.empty());
  BOOST_TEST((judged.near_artificial.front().mode == FailureMode::interlayer));
  BOOST_TEST(*judged.near_artificial.front().factor.value == 20.0 / 19.0, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(what_a_screw_s_head_crushes_is_reported_apart_and_what_it_tears_is_not) {
  auto sites = row_of_sites(3);
  sites.under_head[0] = 1;
  StressField stress = uniform_stress(3, voigt(0, 0, -15.0, 0, 0, 0));
  stress(2, 0) = -40.0;

  const auto crushed = judge(sites, layered_yardstick(), StressField(6, 0), stress);

  BOOST_TEST(*crushed.factor.value == 3.0, tt::tolerance(rounding));
  const auto layers =
      std::ranges::find(crushed.under_heads, FailureMode::build_compression, &ModeResult::mode);
  BOOST_REQUIRE((layers != crushed.under_heads.end()));
  BOOST_TEST(*layers->factor.value == 45.0 / 40.0, tt::tolerance(rounding));
  for (const ModeResult& mode : crushed.under_heads)
    BOOST_TEST((mode.mode == FailureMode::build_compression ||
                mode.mode == FailureMode::in_layer_compression));

  stress(2, 0) = 19.0;
  const auto torn = judge(sites, layered_yardstick(), StressField(6, 0), stress);

  BOOST_TEST(*torn.factor.value == 20.0 / 19.0, tt::tolerance(rounding));
}

// Equal pull along all three axes: the second opinion crosses first (its couplings), and must not
// govern.
BOOST_AUTO_TEST_CASE(the_second_opinion_never_governs) {
  const auto sites = row_of_sites(1);
  const auto stress = uniform_stress(1, voigt(0, 0, 10.0, 0, 6.0, 0));

  const auto judged = judge(sites, layered_yardstick(), StressField(6, 0), stress);

  const auto tsai_wu = std::ranges::find(judged.modes, FailureMode::tsai_wu, &ModeResult::mode);
  BOOST_REQUIRE((tsai_wu != judged.modes.end()));
  BOOST_TEST((judged.governing->mode != FailureMode::tsai_wu));
  BOOST_TEST(*judged.factor.value == 1.0 / std::sqrt(0.25 + 0.25), tt::tolerance(rounding));
}

// The search skips points that cannot govern; the definition looks at every one.
BOOST_AUTO_TEST_CASE(the_search_finds_what_looking_at_every_point_finds) {
  const Eigen::Index count = 20000;  // several parts
  const auto sites = row_of_sites(count);
  const auto yardstick = layered_yardstick();
  std::mt19937 random(1);
  std::normal_distribution<double> normal(0.0, 1.5);
  StressField held(6, count), scaling(6, count);
  for (Eigen::Index i = 0; i < count; ++i) {
    for (int k = 0; k < 6; ++k) {
      held(k, i) = normal(random);
      scaling(k, i) = normal(random);
    }
  }

  const auto judged = judge(sites, yardstick, held, scaling, 4);

  for (const auto& mode : judged.modes) {
    std::optional<double> least_by_definition;
    for (Eigen::Index i = 0; i < count; ++i) {
      least_by_definition = least(
          least_by_definition,
          load_multiplier(mode.mode, yardstick.strength_of_body[0], held.col(i), scaling.col(i)));
    }
    BOOST_TEST(*mode.factor.value == *least_by_definition, tt::tolerance(rounding));
  }
}

BOOST_AUTO_TEST_CASE(each_body_is_judged_by_its_own_strength) {
  auto sites = row_of_sites(2);
  sites.points[1].body = BodyId{2};
  sites.body_names = {"bowl", "plate"};
  const Yardstick both{{Strength(round_strength()), Strength(DuctileStrength{8.0})},
                       Criterion::interactive};

  const auto judged =
      judge(sites, both, StressField(6, 0), uniform_stress(2, voigt(0, 0, 5.0, 0, 0, 0)));

  BOOST_TEST(judged.governing->body == "plate");
  BOOST_TEST(*judged.factor.value == 1.6, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(stresses_that_are_not_numbers)

BOOST_AUTO_TEST_CASE(are_a_reason_not_to_trust_the_case_and_stay_visible_in_its_fields) {
  const auto sites = row_of_sites(4);
  auto loaded = stressed(4, Vector6d::Zero(), voigt(0, 0, 2.0, 0, 0, 0));
  loaded.scaling(2, 2) = std::numeric_limits<double>::quiet_NaN();

  const auto result = judge_case(pressure_case(0.4), loaded, sites, printed_along({0, 0, 1}),
                                 layered_yardstick(), {});

  BOOST_REQUIRE(result.distrust.size() == 1);
  BOOST_TEST(result.distrust.front().find(
                 "not a number at 1 of 4 points, the first at (2, 0, 0)") != std::string::npos);
  BOOST_TEST(std::isnan(result.fields.overall[2]));
  BOOST_TEST(std::isnan(result.fields.factor.at(FailureMode::interlayer)[2]));
  BOOST_TEST(result.fields.governing[2] == -1);
  BOOST_TEST(result.fields.overall[1] == 10.0, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(are_found_even_when_held_and_scaling_infinities_meet) {
  const auto sites = row_of_sites(1);
  auto loaded = stressed(1, voigt(0, 0, 1, 0, 0, 0), voigt(0, 0, 1, 0, 0, 0));
  loaded.held(0, 0) = std::numeric_limits<double>::infinity();
  loaded.scaling(0, 0) = -std::numeric_limits<double>::infinity();

  const auto result = judge_case(pressure_case(0.4), loaded, sites, printed_along({0, 0, 1}),
                                 layered_yardstick(), {});

  BOOST_TEST(!result.distrust.empty());
}

BOOST_AUTO_TEST_CASE(in_the_displacement_are_a_reason_as_well) {
  const auto sites = row_of_sites(2);
  auto loaded = stressed(2, Vector6d::Zero(), voigt(0, 0, 2.0, 0, 0, 0));
  loaded.displacement[4] = std::numeric_limits<double>::quiet_NaN();

  const auto result = judge_case(pressure_case(0.4), loaded, sites, printed_along({0, 0, 1}),
                                 layered_yardstick(), {});

  BOOST_REQUIRE(result.distrust.size() == 1);
  BOOST_TEST(result.distrust.front() == "the displacement is not a number everywhere");
}

BOOST_AUTO_TEST_CASE(a_part_with_every_point_at_a_support_is_not_trusted) {
  auto sites = row_of_sites(2);
  sites.near_artificial.assign(2, 1);

  const auto result =
      judge_case(pressure_case(0.4), stressed(2, Vector6d::Zero(), voigt(0, 0, 2.0, 0, 0, 0)),
                 sites, printed_along({0, 0, 1}), layered_yardstick(), {});

  BOOST_REQUIRE(result.distrust.size() == 1);
  BOOST_TEST(result.distrust.front().find("no point is left to judge") == 0);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(factor_fields)

BOOST_AUTO_TEST_CASE(hold_each_mode_the_least_and_which_it_is) {
  const auto sites = row_of_sites(2);
  auto loaded = stressed(2, Vector6d::Zero(), Vector6d::Zero());
  loaded.scaling.col(0) = voigt(0, 0, 10.0, 0, 0, 0);
  loaded.scaling.col(1) = voigt(-30.0, 0, 0, 0, 0, 0);

  const auto fields = judge_case(pressure_case(0.4), loaded, sites, printed_along({0, 0, 1}),
                                 layered_yardstick(), {})
                          .fields;

  BOOST_TEST(fields.overall[0] == 2.0, tt::tolerance(rounding));
  BOOST_TEST(fields.overall[1] == 2.0, tt::tolerance(rounding));
  BOOST_TEST(fields.governing[0] == static_cast<int>(FailureMode::interlayer));
  BOOST_TEST(fields.governing[1] == static_cast<int>(FailureMode::in_layer_compression));
  BOOST_TEST(std::isinf(fields.factor.at(FailureMode::interlayer)[1]));
}

BOOST_AUTO_TEST_SUITE_END()
