// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/touching_faces.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "tests/mesh/simple_parts.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;

// What the header promises: pieces at the rim count whole or not at all.
constexpr double of_area = 0.03;
constexpr double rounding = 1e-9;

std::vector<TouchingFaces> touching(const std::vector<parts::StepBody>& bodies, double reach) {
  return find_touching_faces(import_step(StepFile(bodies).import()), reach);
}

parts::StepBody named(const TopoDS_Shape& shape, const std::string& name) {
  return {shape, name, {}, {}};
}

}  // namespace

BOOST_AUTO_TEST_SUITE(touching_faces)

BOOST_AUTO_TEST_CASE(a_lid_touches_the_rim_that_it_covers) {
  const TopoDS_Shape cup = cut(block(30, 30, 20), {rod({15, 15, 5}, {0, 0, 1}, 16, 30)});
  const StepFile file({named(cup, "cup"), named(block(26, 30, 4, 0, 0, 20), "lid")});
  const Geometry geometry = import_step(file.import());

  const auto pairs = find_touching_faces(geometry, 5.0);

  BOOST_REQUIRE(pairs.size() == 1u);
  const CadFace &rim = geometry.face(pairs[0].first), &below = geometry.face(pairs[0].second);
  BOOST_TEST(number(rim.body) == 1);
  BOOST_TEST(rim.axis.z() == 1.0, tolerance(rounding));
  BOOST_TEST(number(below.body) == 2);
  BOOST_TEST(below.axis.z() == -1.0, tolerance(rounding));
  BOOST_TEST(pairs[0].area == 26.0 * 30.0 - M_PI * 64.0, tolerance(of_area));
  BOOST_TEST(std::abs(pairs[0].apart) < rounding);
}

BOOST_AUTO_TEST_CASE(faces_within_reach_are_listed_with_their_distance) {
  const std::vector<parts::StepBody> bodies{named(block(30, 30, 10), "base"),
                                            named(block(20, 20, 10, 5, 5, 12), "lid")};

  const auto near = touching(bodies, 2.5);

  BOOST_REQUIRE(near.size() == 1u);
  BOOST_TEST(near[0].area == 400.0, tolerance(of_area));
  BOOST_TEST(near[0].apart == 2.0, tolerance(rounding));
  BOOST_TEST(touching(bodies, 1.5).empty());
}

BOOST_AUTO_TEST_CASE(faces_that_lie_in_each_other_are_a_negative_distance_apart) {
  const auto pairs =
      touching({named(block(30, 30, 10), "base"), named(block(20, 20, 10, 5, 5, 9.9), "lid")}, 0.0);

  BOOST_REQUIRE(pairs.size() == 1u);
  BOOST_TEST(pairs[0].apart == -0.1, tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(a_pin_touches_its_bore_on_the_whole_round) {
  const auto pairs = touching({named(tube(15, 10, 8), "ring"), named(tube(10, 6, 8), "pin")}, 0.5);

  BOOST_REQUIRE(pairs.size() == 1u);
  BOOST_TEST(pairs[0].area == 2.0 * M_PI * 10.0 * 8.0, tolerance(of_area));
  // Chords of circles in steps of 0.25 rad stray by r (1 - cos 0.125) = 0.08 mm from the arc.
  BOOST_TEST(std::abs(pairs[0].apart) < 0.08);
}

BOOST_AUTO_TEST_CASE(faces_that_look_away_or_across_do_not_touch) {
  // The tops of blocks side by side lie in one plane, their far sides look away.
  const auto pairs = touching(
      {named(block(10, 10, 10), "left"), named(block(10, 10, 10, 11, 0, 0), "right")}, 5.0);

  BOOST_REQUIRE(pairs.size() == 1u);
  BOOST_TEST(pairs[0].area == 100.0, tolerance(of_area));
  BOOST_TEST(pairs[0].apart == 1.0, tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(slanted_faces_do_not_touch) {
  const StepFile file(block(10, 10, 10));
  const auto pairs_at = [&](double angle) {
    StepSource tilted = file.import();
    tilted.placement = {.axis = {0, 1, 0}, .angle = -angle, .shift = {0, 0, 10}};
    ImportOptions both = file.import();
    both.files.push_back(tilted);
    return find_touching_faces(import_step(both), 5.0).size();
  };

  BOOST_TEST(pairs_at(20.0 * M_PI / 180.0) == 1u);
  BOOST_TEST(pairs_at(30.0 * M_PI / 180.0) == 0u);
}

BOOST_AUTO_TEST_CASE(bodies_left_out_touch_nothing) {
  const StepFile file({named(block(10, 10, 10), "a"), named(block(10, 10, 10, 10, 0, 0), "b")});
  StepSource source = file.import();
  source.bodies = {"a"};

  BOOST_TEST(find_touching_faces(import_step(file.import()), 0.1).size() == 1u);
  BOOST_TEST(find_touching_faces(import_step(source), 0.1).empty());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
