// SPDX-License-Identifier: GPL-3.0-or-later
// The bowl of the filter recognises its own shapes: what it prints beside the analysis is held
// against the formulas, worked out by hand from the drawing's sizes.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/examples/example_case.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;
using nlohmann::json;

// The drawing (tools/parts): bore 60 mm, wall 6.5 mm, bottom 8 mm, eight screws, gasket 66 to
// 78 mm. The card's Poisson's ratio in the layer is 0.35.
constexpr double p = 0.4, r = 30.0, t = 6.5, bottom = 8.0, nu = 0.35;

struct Run {
  json summary;
  std::string text;
};

const Run& filter_bowl() {
  static const Run run = [] {
    const ExampleCopy copy("filter-bowl");
    // The wall needs two layers of elements to carry membrane and bending apart.
    copy.write_case(replaced(copy.case_text(), "layers = 1\n", "layers = 2\n"));
    const Ended ended = copy.run({"run", copy.case_name(), "-o", "answer"});
    BOOST_REQUIRE_MESSAGE(ended.status == 1, ended.err);
    return Run{json::parse(content_of(copy.directory() / "answer" / "summary.json")),
               content_of(copy.directory() / "answer" / "summary.md")};
  }();
  return run;
}

json row(const std::string& shape) {
  for (const json& comparison : filter_bowl().summary["hand_calculation"]["comparisons"])
    if (comparison["shape"] == shape) return comparison;
  BOOST_FAIL("no row '" + shape + "' in " +
             filter_bowl().summary["hand_calculation"]["comparisons"].dump(1));
  return {};
}

double number_in(const json& comparison, const char* key) { return comparison[key].get<double>(); }

}  // namespace

BOOST_AUTO_TEST_SUITE(hand_calculation_of_an_example)

BOOST_AUTO_TEST_CASE(the_bore_s_wall_is_a_cylinder) {
  const json hoop = row("cylindrical shell, bore 60 mm");

  // p r / t (Roark's Formulas, Table 13.1).
  BOOST_TEST(number_in(hoop, "hand_MPa") == p * r / t, tolerance(1e-6));
  // What holds the bursting force together is p r / t on average, whatever the stiffness; flange
  // and bottom are 5 r t away at most and take or give a little.
  BOOST_TEST(number_in(hoop, "membrane_MPa") == p * r / t, tolerance(0.1));
  // Lame (B1) at the bore: p (b^2 + a^2) / (b^2 - a^2), 17 % above p r / t.
  BOOST_TEST(holds(hoop["differs"].get<std::string>(), "thick wall"));
}

BOOST_AUTO_TEST_CASE(the_bore_s_wall_carries_the_thrust_on_the_bottom) {
  const json axial = row("cylindrical shell, bore 60 mm, along its axis, end closed");

  // p r / (2 t) (Roark's Formulas, Table 13.1).
  BOOST_TEST(number_in(axial, "hand_MPa") == 0.5 * p * r / t, tolerance(1e-6));
  // Equilibrium: p pi r^2 over the ring's area, in the mean all round; the one line that is read
  // stands nearer to one screw than to others, on a coarse mesh.
  const double ring = (r + t) * (r + t) - r * r;
  BOOST_TEST(number_in(axial, "membrane_MPa") == p * r * r / ring, tolerance(0.1));
}

BOOST_AUTO_TEST_CASE(the_bottom_is_a_clamped_plate) {
  // B6: 3 (1 + nu) p a^2 / (8 t^2) in the middle of a clamped round plate.
  const double clamped = 0.375 * (1 + nu) * p * r * r / (bottom * bottom);
  const double supported = 0.375 * (3 + nu) * p * r * r / (bottom * bottom);
  const json middle = row("flat round bottom, 60 mm, middle, edge clamped");

  BOOST_TEST(number_in(middle, "hand_MPa") == clamped, tolerance(1e-6));
  // B9: the code's rule C p d^2 / t^2, C = 0.3.
  BOOST_TEST_REQUIRE(middle["beside"].size() == 2U);
  BOOST_TEST(number_in(middle["beside"][0], "value_MPa") == supported, tolerance(1e-6));
  BOOST_TEST(number_in(middle["beside"][1], "value_MPa") == 0.3 * p * 4 * r * r / (bottom * bottom),
             tolerance(1e-6));
  const double bending =
      number_in(middle, "membrane_and_bending_MPa") - number_in(middle, "membrane_MPa");
  // The wall turns with the bottom: neither clamped nor supported.
  BOOST_TEST(bending > clamped);
  BOOST_TEST(bending < supported);
}

double input(const json& comparison, const std::string& symbol) {
  for (const json& known : comparison["inputs"])
    if (known["symbol"] == symbol) return known["value"].get<double>();
  BOOST_FAIL("no input " + symbol + " in " + comparison.dump(1));
  return 0.0;
}

BOOST_AUTO_TEST_CASE(the_flange_is_a_ring_that_the_thrust_turns) {
  // Ring 30 to 54 mm, 14 high; seal's inner edge 33, its middle 36, screws at 46.5; wall 30
  // to 36.5.
  const json flange = row("flange ring, 60 to 108 mm, turned by the fluid's thrust");

  // The case's bound: screws or gasket answer all of the thrust, but for what the mesh's circle
  // lacks of the CAD's.
  const double share = input(flange, "screws' share"), radius = input(flange, "r");
  BOOST_TEST(std::min(share, 1.0 - share) < 1e-4);
  const double answered_at = 36.0 + share * (46.5 - 36.0);
  BOOST_TEST(input(flange, "r_c") == answered_at, tolerance(1e-6));
  const double moment =
      p * M_PI * (r * r * (answered_at - 33.25) + (33 * 33 - r * r) * (answered_at - 31.5));
  BOOST_TEST(number_in(flange, "hand_MPa") ==
                 6 * moment / (2 * M_PI) / (14 * 14 * radius * std::log(54.0 / r)),
             tolerance(1e-6));
  // The tube's wall of 6.5 mm turns with it and takes part of the moment.
  BOOST_TEST(holds(flange["differs"].get<std::string>(), "tube holds the ring"));
  // The tube can only help: stress round the ring lies between none and the loose ring's.
  BOOST_TEST(number_in(flange, "membrane_and_bending_MPa") > 0.0);
  BOOST_TEST(number_in(flange, "membrane_and_bending_MPa") < number_in(flange, "hand_MPa"));
}

BOOST_AUTO_TEST_CASE(each_screw_carries_its_share_of_the_fluid) {
  const json& forces = filter_bowl().summary["hand_calculation"]["screw_forces"];
  BOOST_TEST_REQUIRE(forces.size() == 1U);

  // p pi / 4 G^2 / n, G the middle of the gasket (common practice, no source).
  BOOST_TEST(number_in(forces[0], "hand_N") == p * M_PI * 36 * 36 / 8, tolerance(1e-6));
  BOOST_TEST(number_in(forces[0], "joint_N") == p * M_PI * 33 * 33 / 8, tolerance(1e-3));
  BOOST_TEST(!forces[0]["joint_solved"].get<bool>());
  // Eight on a circle of 93 mm; the preload is used up where it is p pi / 4 G^2 / n.
  BOOST_TEST(number_in(forces[0], "pitch_mm") == M_PI * 93 / 8, tolerance(1e-6));
  BOOST_TEST(number_in(forces[0], "hand_N_per_mm") == p * 36 * 36 / 93, tolerance(1e-6));
  BOOST_TEST(number_in(forces[0], "hand_opening_MPa") ==
                 number_in(forces[0], "preload_N") * 8 / (M_PI * 36 * 36),
             tolerance(1e-6));
  BOOST_TEST(number_in(forces[0], "joint_opening_MPa") ==
                 number_in(forces[0], "preload_N") * 8 / (M_PI * 33 * 33),
             tolerance(1e-3));
}

BOOST_AUTO_TEST_CASE(the_summary_to_read_says_the_same) {
  const std::string& text = filter_bowl().text;

  BOOST_TEST(holds(text, "| 1   | cylindrical shell, bore 60 mm"));
  BOOST_TEST(holds(text, "1.85 MPa"));  // 0.4 x 30 / 6.5
  BOOST_TEST(holds(text, "2.85 MPa"));  // 0.375 x 1.35 x 0.4 x 900 / 64
  BOOST_TEST(holds(text, "204 N"));     // 0.4 pi 36^2 / 8
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
