// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/judged_joint.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <set>
#include <stdexcept>

#include "tests/support/seal_face.h"

using namespace crossgrain;
using boost::test_tools::tolerance;

namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// Eight M5 of 1 kN in inserts along the build, scatter 2.
ScrewGroupFacts screws() {
  ScrewGroupFacts group{};
  group.name = "lid screws";
  group.size = *find_screw_size("M5");
  group.strength = screw_class("A2-70");
  group.count = 8;
  group.preload = scattered_preload(1000.0, 2.0);
  group.friction = TighteningFriction{0.2, 0.2};
  group.torque = tightening_torque(1000.0, group.size, 10.0, *group.friction);
  group.head_outer = 10.0;
  group.hole = 5.5;
  group.insert = Insert{6.4, 9.5};
  group.boss_diameter = 12.8;
  return group;
}

/// A strip 20 x 20 between the fluid and the outer edge.
SealFacts lid_seal() {
  test::FaceRule rule;
  rule.contact = [](double, double) { return 0.0; };
  rule.wetted = [](double x, double) { return x < -9.99; };
  rule.exit = [](double x, double) -> std::optional<SealExit> {
    if (x > 9.99) return SealExit::outer_edge;
    return std::nullopt;
  };
  SealFacts seal{};
  seal.name = "lid seal";
  seal.points = test::seal_face(10.0, 11, rule);
  seal.constants = rubber_gasket_constants(60.0);
  seal.margin = 0.5;
  seal.at_assembly = {0.5, LimitStanding::given, "the stated squeeze"};
  return seal;
}

SeatLimits limits() {
  return {JointLimit{20.0, LimitStanding::memory, "half of the compressive yield"},
          JointLimit{1500.0, LimitStanding::given, "test"},
          JointLimit{20.0, LimitStanding::data_sheet, "Zt"}};
}

JointStateFacts state(const std::string& situation, PreloadLevel level, double preload,
                      double force, double contact, double pressure) {
  JointStateFacts facts{};
  facts.situation = situation;
  facts.level = level;
  facts.preload = preload;
  facts.temperature_K = 296.15;
  facts.fluid_pressure = pressure;
  facts.tightening = situation == "tightening";
  facts.screws = {{std::vector<double>(8, 0.9 * force), limits()}};
  facts.screws[0].forces[5] = force;
  facts.contact = {std::vector<double>(121, contact)};
  return facts;
}

/// Contact 1 MPa for each kN, of which 0.4 MPa of fluid take 0.3; screws gain 100 N from it.
std::vector<JointStateFacts> states() {
  std::vector<JointStateFacts> all;
  const std::pair<PreloadLevel, double> levels[] = {{PreloadLevel::least, 2.0 / 3.0},
                                                    {PreloadLevel::nominal, 1.0},
                                                    {PreloadLevel::greatest, 4.0 / 3.0}};
  for (const auto& [level, preload] : levels) {
    all.push_back(state("tightening", level, preload, 1000.0 * preload, preload, 0.0));
    all.push_back(state("service", level, preload, 1000.0 * preload + 100.0, preload - 0.3, 0.4));
  }
  return all;
}

const JointLine& line(const JudgedJoint& judged, JointMode mode) {
  for (const JointLine& one : judged.lines) {
    if (one.mode == mode) return one;
  }
  throw std::logic_error("no line " + std::string(name_of(mode)));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(judged_joint)

BOOST_AUTO_TEST_CASE(every_line_is_judged_where_it_is_worst) {
  const JudgedJoint judged = judge_joint({screws()}, {lid_seal()}, states());

  // Seals: least preload. 2/3 - 0.3 against 1.5 times 0.4.
  const JointLine& seal = line(judged, JointMode::seal_in_service);
  BOOST_TEST(seal.value == 2.0 / 3.0 - 0.3, tolerance(1e-12));
  BOOST_TEST(seal.limit.value == 0.6, tolerance(1e-12));
  BOOST_TEST((seal.level == PreloadLevel::least));
  BOOST_TEST(!seal.holds());
  BOOST_TEST(line(judged, JointMode::seal_at_assembly).value == 2.0 / 3.0, tolerance(1e-12));
  BOOST_TEST(line(judged, JointMode::seal_at_assembly).holds());
  // Screws: greatest preload, in service.
  BOOST_TEST(line(judged, JointMode::pull_out).value == 4000.0 / 3.0 + 100.0, tolerance(1e-12));
  BOOST_TEST(line(judged, JointMode::pull_out).state == "service");
  // pi/4 (10^2 - 5.5^2) = 54.78 mm^2.
  BOOST_TEST(line(judged, JointMode::bearing).value == 1433.333 / 54.782, tolerance(1e-4));
  BOOST_TEST(!line(judged, JointMode::bearing).holds());
  BOOST_TEST(line(judged, JointMode::screw_proof).limit.value == 450.0 * 14.2, tolerance(1e-12));
  BOOST_TEST(line(judged, JointMode::screw_yield).state == "tightening");
  BOOST_TEST(line(judged, JointMode::boss_wall).value == 3.2, tolerance(1e-12));
  BOOST_TEST(line(judged, JointMode::tear_off).holds());
  BOOST_TEST(!judged.holds());
}

BOOST_AUTO_TEST_CASE(what_is_used_up_most_stands_first_and_nothing_twice) {
  const JudgedJoint judged = judge_joint({screws()}, {lid_seal()}, states());

  std::set<JointMode> seen;
  for (std::size_t i = 0; i < judged.lines.size(); ++i) {
    BOOST_TEST(seen.insert(judged.lines[i].mode).second);
    if (i > 0) BOOST_TEST(judged.lines[i].use() <= judged.lines[i - 1].use());
  }
  BOOST_TEST((judged.lines.front().mode == JointMode::seal_in_service));
}

BOOST_AUTO_TEST_CASE(the_window_by_hand) {
  // Sealing in service takes a preload of 0.9: a torque of 1.35. Bearing holds 20 * 54.782 = 1095.6
  // N in service, a preload of 0.99564, a torque of 0.74673. Empty.
  const JudgedJoint judged = judge_joint({screws()}, {lid_seal()}, states());

  BOOST_REQUIRE(judged.window);
  BOOST_TEST(judged.window->lowest->torque == 1.35, tolerance(1e-9));
  BOOST_TEST((judged.window->lowest->mode == JointMode::seal_in_service));
  BOOST_TEST(judged.window->highest->torque == 0.74673, tolerance(1e-4));
  BOOST_TEST((judged.window->highest->mode == JointMode::bearing));
  BOOST_TEST(judged.window->empty());
  BOOST_TEST(judged.openers.size() == 4u);
}

BOOST_AUTO_TEST_CASE(a_sound_joint_holds_inside_its_window) {
  auto sound = states();
  for (auto& one : sound) {
    one.screws[0].limits.bearing->value = 60.0;
    one.screws[0].limits.pull_out->value = 4000.0;
    one.screws[0].limits.across_layers->value = 60.0;
    if (one.fluid_pressure > 0.0) one.fluid_pressure = 0.2;
  }

  const JudgedJoint judged = judge_joint({screws()}, {lid_seal()}, sound);

  BOOST_TEST(judged.holds());
  BOOST_TEST(!judged.window->empty());
  BOOST_TEST(judged.window->lowest->torque <= 1.0);
  BOOST_TEST(judged.window->highest->torque >= 1.0);
  BOOST_TEST(judged.openers.empty());
}

BOOST_AUTO_TEST_CASE(an_insert_in_the_layer_splits_its_boss) {
  ScrewGroupFacts lying = screws();
  lying.insert_along_build = false;

  const JudgedJoint judged = judge_joint({lying}, {lid_seal()}, states());

  BOOST_TEST(line(judged, JointMode::hoop_split).value > 0.0);
  BOOST_CHECK_THROW(line(judged, JointMode::tear_off), std::logic_error);
}

BOOST_AUTO_TEST_CASE(an_insert_that_turns_and_a_screw_that_bottoms_are_told) {
  ScrewGroupFacts group = screws();
  group.torque_out = JointLimit{900.0, LimitStanding::given, "test"};
  group.depth_under_tip = -1.0;

  const JudgedJoint judged = judge_joint({group}, {lid_seal()}, states());

  BOOST_TEST(
      line(judged, JointMode::torque_out).value == thread_torque(4000.0 / 3.0, group.size, 0.2),
      tolerance(1e-12));
  BOOST_TEST(!line(judged, JointMode::screw_bottoms).holds());
  BOOST_TEST((judged.lines.front().mode == JointMode::screw_bottoms));
}

BOOST_AUTO_TEST_CASE(a_bowing_flange_and_a_crushed_gasket_are_told) {
  SealFacts seal = lid_seal();
  for (const double angle : {0.25, 0.75, 1.25, 1.75})
    seal.screws.push_back(40.0 * Eigen::Vector3d(std::cos(angle * std::numbers::pi),
                                                 std::sin(angle * std::numbers::pi), 0.0));
  seal.pitch_limit = 40.0;
  seal.greatest_contact = JointLimit{1.2, LimitStanding::given, "maker's"};
  // Squeezed by 1 mm at the screws, by 0.4345 mm between them (B11, phi = pi): a wave in the angle,
  // wherever across the face.
  auto bowed = states();
  for (auto& state : bowed) {
    state.gap.emplace_back();
    for (const SealPoint& point : seal.points) {
      const double angle = std::atan2(point.position.y(), point.position.x());
      state.gap[0].push_back(-0.71725 + 0.28275 * std::cos(4.0 * angle));
    }
  }

  const JudgedJoint judged = judge_joint({screws()}, {seal}, bowed);

  const JointLine& bow = line(judged, JointMode::flange_bow);
  BOOST_TEST(bow.value == std::numbers::pi, tolerance(1e-3));  // digits of the target
  BOOST_TEST(!bow.holds());
  BOOST_TEST(bow.note.starts_with("gapes 0.57 mm more between screws"));
  BOOST_TEST(line(judged, JointMode::screw_pitch).value == 40.0 * std::numbers::sqrt2,
             tolerance(1e-12));
  BOOST_TEST(!line(judged, JointMode::screw_pitch).holds());
  BOOST_TEST(!judged.holds());
  BOOST_TEST(judged.window.has_value());
  BOOST_TEST((!judged.window->never || *judged.window->never != JointMode::flange_bow));
  BOOST_TEST(line(judged, JointMode::gasket_crushed).value == 4.0 / 3.0, tolerance(1e-12));
  BOOST_TEST(!line(judged, JointMode::gasket_crushed).holds());
}

BOOST_AUTO_TEST_CASE(a_number_that_is_none_never_passes) {
  auto broken = states();
  broken[3].screws[0].forces[2] = not_a_number;
  BOOST_CHECK_THROW(judge_joint({screws()}, {lid_seal()}, broken), std::invalid_argument);

  broken = states();
  broken[3].contact[0][7] = not_a_number;
  BOOST_CHECK_THROW(judge_joint({screws()}, {lid_seal()}, broken), std::invalid_argument);

  broken = states();
  broken[3].screws[0].limits.pull_out->value = not_a_number;
  BOOST_CHECK_THROW(judge_joint({screws()}, {lid_seal()}, broken), std::invalid_argument);

  broken = states();
  broken[3].contact.clear();
  BOOST_CHECK_THROW(judge_joint({screws()}, {lid_seal()}, broken), std::invalid_argument);

  const JointLine odd{
      JointMode::pull_out, "x", not_a_number, {1.0, LimitStanding::given, ""}, "", std::nullopt,
      std::nullopt,        ""};
  BOOST_TEST(!odd.holds());
}

BOOST_AUTO_TEST_CASE(an_estimate_is_judged_by_its_low_end) {
  const HoldingForce estimate = estimated_pull_out({6.4, 9.5}, {10.0, 8.0, 12.0});

  BOOST_TEST(pull_out_limit(estimate).value == estimate.low);
  BOOST_TEST(pull_out_limit(given_pull_out(2000.0, {0.5, 0.4, 0.6})).value == 1000.0);
}

BOOST_AUTO_TEST_SUITE_END()
