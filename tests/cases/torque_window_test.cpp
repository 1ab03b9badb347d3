// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/torque_window.h"

#include <boost/test/unit_test.hpp>
#include <limits>
#include <stdexcept>

#include "cases/joint/window_openers.h"

using namespace crossgrain;
using boost::test_tools::tolerance;

namespace {

constexpr PreloadScatter none{1.0, 1.0};
constexpr PreloadScatter wrench{2.0 / 3.0, 4.0 / 3.0};

PreloadResponse seal(std::vector<PreloadResponse::Point> points, double limit,
                     double temperature = 296.15) {
  return {JointMode::seal_in_service, "lid", "service", temperature, false,
          std::move(points),          limit};
}

PreloadResponse bearing(std::vector<PreloadResponse::Point> points, double limit,
                        double temperature = 296.15) {
  return {JointMode::bearing, "screws", "tightening", temperature, false, std::move(points), limit};
}

const OpenerAdvice& advice(const std::vector<OpenerAdvice>& all, WindowOpener opener) {
  for (const auto& one : all) {
    if (one.opener == opener) return one;
  }
  throw std::logic_error("no such advice");
}

}  // namespace

BOOST_AUTO_TEST_SUITE(torque_window)

BOOST_AUTO_TEST_CASE(bounds_lie_where_the_straight_pieces_meet_the_limits) {
  // Contact 0 at half the preload, 2 at all of it: 0.8 at 0.7. Bearing 10 at 1, 20 at 1.5: 16 at
  // 1.3.
  const auto window = crossgrain::torque_window(
      {seal({{0.5, 0.0}, {1.0, 2.0}}, 0.8), bearing({{1.0, 10.0}, {1.5, 20.0}}, 16.0)}, none);

  BOOST_REQUIRE(window.lowest);
  BOOST_REQUIRE(window.highest);
  BOOST_TEST(window.lowest->torque == 0.7, tolerance(1e-12));
  BOOST_TEST(window.highest->torque == 1.3, tolerance(1e-12));
  BOOST_TEST(!window.lowest->extrapolated);
  BOOST_TEST(!window.highest->extrapolated);
  BOOST_TEST(!window.empty());
}

BOOST_AUTO_TEST_CASE(the_least_preload_must_seal_and_the_greatest_must_not_crush) {
  const std::vector<PreloadResponse> both = {seal({{0.5, 0.0}, {1.0, 2.0}}, 0.8),
                                             bearing({{1.0, 10.0}, {1.5, 20.0}}, 16.0)};

  const auto window = crossgrain::torque_window(both, wrench);

  BOOST_TEST(window.lowest->torque == 0.7 * 1.5, tolerance(1e-12));
  BOOST_TEST(window.highest->torque == 1.3 * 0.75, tolerance(1e-12));
  BOOST_TEST(window.empty());
}

BOOST_AUTO_TEST_CASE(beyond_what_was_solved_the_slope_is_followed_and_said) {
  const auto up = preload_bound(seal({{0.5, 0.2}, {1.0, 0.4}}, 0.6));
  BOOST_TEST((up.kind == PreloadBound::Kind::at));
  BOOST_TEST(up.preload == 1.5, tolerance(1e-12));
  BOOST_TEST(up.extrapolated);

  const auto down = preload_bound(bearing({{0.5, 10.0}, {1.0, 20.0}}, 5.0));
  BOOST_TEST(down.preload == 0.25, tolerance(1e-12));
  BOOST_TEST(down.extrapolated);
}

BOOST_AUTO_TEST_CASE(what_tightening_cannot_mend_is_never_satisfied) {
  // Contact that stays where it is, or would take four times the preload.
  BOOST_TEST(
      (preload_bound(seal({{0.5, 0.2}, {1.0, 0.2}}, 0.6)).kind == PreloadBound::Kind::never));
  BOOST_TEST(
      (preload_bound(seal({{0.5, 0.1}, {1.0, 0.2}}, 0.8)).kind == PreloadBound::Kind::never));
  // A screw that the fluid alone overloads.
  BOOST_TEST(
      (preload_bound(bearing({{0.5, 30.0}, {1.0, 31.0}}, 20.0)).kind == PreloadBound::Kind::never));
  const auto window = crossgrain::torque_window({seal({{0.5, 0.2}, {1.0, 0.2}}, 0.6)}, none);
  BOOST_TEST(window.empty());
  BOOST_TEST((window.never == JointMode::seal_in_service));
}

BOOST_AUTO_TEST_CASE(what_always_holds_sets_no_end) {
  const auto window = crossgrain::torque_window(
      {seal({{0.5, 2.0}, {1.0, 2.0}}, 0.6), bearing({{0.5, 5.0}, {1.0, 5.0}}, 20.0)}, none);

  BOOST_TEST(!window.lowest);
  BOOST_TEST(!window.highest);
  BOOST_TEST(!window.empty());
}

BOOST_AUTO_TEST_CASE(a_dip_above_the_crossing_counts_as_a_leak) {
  // It seals at 0.6, not at 0.8, and again from there on: only torques beyond the dip are safe.
  const auto bound = preload_bound(seal({{0.4, 0.0}, {0.6, 2.0}, {0.8, 0.0}, {1.0, 2.0}}, 1.0));

  BOOST_TEST(bound.preload == 0.9, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(the_window_of_all_temperatures_is_what_they_have_in_common) {
  const std::vector<PreloadResponse> responses = {seal({{0.5, 0.0}, {1.0, 2.0}}, 0.8, 278.15),
                                                  bearing({{0.5, 5.0}, {1.0, 10.0}}, 9.0, 333.15),
                                                  seal({{0.5, 0.5}, {1.0, 2.5}}, 0.8, 333.15)};

  const auto windows = windows_by_temperature(responses, none);
  const auto all = crossgrain::torque_window(responses, none);

  BOOST_REQUIRE(windows.size() == 2u);
  BOOST_TEST(windows[0].temperature_K == 278.15);
  BOOST_TEST(windows[0].window.lowest->torque == 0.7, tolerance(1e-12));
  BOOST_TEST(windows[1].window.lowest->torque == 0.575, tolerance(1e-12));
  BOOST_TEST(windows[1].window.highest->torque == 0.9, tolerance(1e-12));
  BOOST_TEST(all.lowest->torque == 0.7, tolerance(1e-12));
  BOOST_TEST(all.highest->torque == 0.9, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_response_that_is_none_is_refused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  BOOST_CHECK_THROW(preload_bound(seal({{1.0, 2.0}}, 1.0)), std::invalid_argument);
  BOOST_CHECK_THROW(preload_bound(seal({{1.0, 2.0}, {0.5, 1.0}}, 1.0)), std::invalid_argument);
  BOOST_CHECK_THROW(preload_bound(seal({{0.5, nan}, {1.0, 2.0}}, 1.0)), std::invalid_argument);
  BOOST_CHECK_THROW(preload_bound(seal({{0.5, 1.0}, {1.0, 2.0}}, nan)), std::invalid_argument);
  BOOST_CHECK_THROW(crossgrain::torque_window({}, {nan, 1.0}), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(an_open_window_needs_no_advice) {
  BOOST_TEST(
      advise_openers({seal({{0.5, 0.0}, {1.0, 2.0}}, 0.8)}, none, {8, std::nullopt, 1.0}).empty());
}

BOOST_AUTO_TEST_CASE(more_screws_share_what_one_cannot_carry) {
  // Seals from 1.0, crushes from 0.8: a quarter more screws.
  const std::vector<PreloadResponse> shut = {seal({{0.0, 0.0}, {1.0, 1.0}}, 1.0),
                                             bearing({{0.0, 0.0}, {1.0, 10.0}}, 8.0)};

  const auto advised = advise_openers(shut, none, {8, 2.0, 0.5});

  BOOST_TEST(advice(advised, WindowOpener::more_screws).opens);
  BOOST_TEST(advice(advised, WindowOpener::more_screws).words.find("10 in place of 8") !=
             std::string::npos);
  // Heads on metal are not crushed at all.
  BOOST_TEST(advice(advised, WindowOpener::metal_limiter).opens);
}

BOOST_AUTO_TEST_CASE(a_flange_can_give_no_more_than_its_bow_took) {
  const auto shut = [](double crushes_at) {
    return std::vector<PreloadResponse>{seal({{0.0, 0.0}, {1.0, 1.0}}, 1.0),
                                        bearing({{0.0, 0.0}, {1.0, 10.0}}, 10.0 * crushes_at)};
  };
  // phi = 2 leaves 0.91 of the mean between the screws: 1 / 0.95 can be won, 1 / 0.8 cannot.
  const auto slightly = advise_openers(shut(0.95), none, {8, 2.0, 1.0});
  const auto badly = advise_openers(shut(0.8), none, {8, 2.0, 1.0});

  BOOST_TEST(advice(slightly, WindowOpener::thicker_flange).opens);
  BOOST_TEST(advice(slightly, WindowOpener::softer_gasket).opens);
  BOOST_TEST(!advice(badly, WindowOpener::thicker_flange).opens);
  BOOST_TEST(!advice(badly, WindowOpener::softer_gasket).opens);
}

BOOST_AUTO_TEST_CASE(a_limiter_gives_back_what_creep_took) {
  // After losses half of the preload is left: sealing takes 1.2 at assembly, the insert holds 1.0.
  PreloadResponse late = seal({{0.5, 0.0}, {1.2, 1.0}}, 1.0);
  late.after_losses = true;
  PreloadResponse pull = bearing({{0.0, 0.0}, {1.0, 500.0}}, 500.0);
  pull.mode = JointMode::pull_out;

  const auto with_losses = advise_openers({late, pull}, none, {8, std::nullopt, 0.5});
  const auto without = advise_openers({late, pull}, none, {8, std::nullopt, 1.0});

  BOOST_TEST(advice(with_losses, WindowOpener::metal_limiter).opens);
  BOOST_TEST(!advice(without, WindowOpener::metal_limiter).opens);
  BOOST_TEST(!advice(without, WindowOpener::thicker_flange).opens);
}

BOOST_AUTO_TEST_CASE(nothing_scales_what_no_torque_satisfies) {
  const auto advised = advise_openers({seal({{0.5, 0.2}, {1.0, 0.2}}, 0.6)}, none, {8, 1.0, 1.0});

  for (const auto& one : advised) BOOST_TEST(!one.opens);
}

BOOST_AUTO_TEST_SUITE_END()
