// SPDX-License-Identifier: GPL-3.0-or-later
// The way of least resistance under a gasket, on pressure fields whose pass is known.
#include "cases/joint/leak_path.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "tests/support/seal_face.h"
#include "tests/verification/check_table.h"

namespace crossgrain::verification {
namespace {

constexpr double bore = 20.0, outer = 40.0, circle_of_holes = 31.0, hole = 3.0;

double radius(double x, double y) { return std::hypot(x, y); }

/// To the axis of the nearest of eight holes.
double from_hole(double x, double y) {
  const double eighth = std::numbers::pi / 4.0;
  const double angle = eighth * std::round(std::atan2(y, x) / eighth);
  return std::hypot(x - circle_of_holes * std::cos(angle), y - circle_of_holes * std::sin(angle));
}

/// A flange's whole face: bore, outer edge, eight screw holes.
test::FaceRule full_face(std::function<double(double, double)> contact) {
  test::FaceRule rule;
  rule.there = [](double x, double y) {
    const double r = radius(x, y);
    return r >= bore && r <= outer && from_hole(x, y) >= hole;
  };
  rule.contact = std::move(contact);
  rule.wetted = [](double x, double y) { return radius(x, y) < bore + 1.0; };
  rule.exit = [](double x, double y) -> std::optional<SealExit> {
    if (radius(x, y) > outer - 1.0) return SealExit::outer_edge;
    if (from_hole(x, y) < hole + 1.0) return SealExit::screw_hole;
    return std::nullopt;
  };
  return rule;
}

BOOST_AUTO_TEST_SUITE(leak_path)

BOOST_AUTO_TEST_CASE(a_full_face_gasket_tight_only_outside_the_screw_holes_leaks) {
  // 2 MPa outside the circle of holes, 0.1 inside it: the fluid runs to the holes and up the
  // screws.
  const auto face = test::seal_face(outer, 161, full_face([](double x, double y) {
                                      return radius(x, y) > circle_of_holes ? 2.0 : 0.1;
                                    }));

  const std::vector<LeakPath> paths = leak_paths(face, 0.0);

  const Tolerance exact = fraction(1e-9, "the field takes two values only");
  BOOST_TEST((paths.front().exit == SealExit::screw_hole));
  check({Chapter::gaskets, "leak past the holes",
         "full-face gasket, 2 MPa outside the circle of holes, 0.1 inside: level of the leak",
         "design fact: screw holes are exits (common practice, no source)", 0.1, exact},
        paths.front().level);
  BOOST_REQUIRE(paths.size() == 2);
  BOOST_TEST((paths.back().exit == SealExit::outer_edge));
  check({Chapter::gaskets, "leak to the edge", "the same, to the outer edge", "exact: minimax", 2.0,
         exact},
        paths.back().level);
}

BOOST_AUTO_TEST_CASE(a_fluid_finds_the_pass_between_two_hills) {
  // A ridge along x = 3, crossed from left to right; its passes lie at y = -10 and 10.
  test::FaceRule rule;
  rule.contact = [](double x, double y) {
    return 3.0 + std::cos(std::numbers::pi * y / 10.0) - std::pow((x - 3.0) / 40.0, 2);
  };
  rule.wetted = [](double x, double) { return x < -19.9; };
  rule.exit = [](double x, double) -> std::optional<SealExit> {
    if (x > 19.9) return SealExit::other_port;
    return std::nullopt;
  };

  const LeakPath path = leak_paths(test::seal_face(20.0, 201, rule), 0.0).front();

  check({Chapter::gaskets, "leak over a pass", "ridge with passes of 2 MPa: level of the leak",
         "exact: minimax of 3 + cos(π y / 10) − ((x − 3) / 40)²", 2.0,
         absolute(1e-4, "the grid of 0.2 meets the pass")},
        path.level);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
