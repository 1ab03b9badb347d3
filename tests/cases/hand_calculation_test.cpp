// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/hand_calculation.h"

#include <boost/test/unit_test.hpp>

#include "cases/second_opinions/handbook_stress.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using crossgrain::testing::refused;
namespace tt = boost::test_tools;

namespace {

HandCalculationSpec tube(HandShape shape) {
  HandCalculationSpec spec;
  spec.place = {"case.toml", 12};
  spec.shape = shape;
  spec.inner_radius = 20;
  spec.wall = 10;
  return spec;
}

const HandStrength strength{52, "the XY tensile strength of the card (petg)"};

SolidMaterial printed() {
  return {.elastic = orthotropic(
              {.E_layer = 2000, .E_build = 1500, .nu_12 = 0.35, .nu_13 = 0.33, .G_build = 500}),
          .thermal_expansion = {6e-5, 6e-5, 8e-5},
          .density = 1.2e-9,
          .strength = LayeredStrength{.Xt = 35, .Xc = 50, .Zt = 25, .Zc = 40, .Sz = 15}};
}

}  // namespace

BOOST_AUTO_TEST_SUITE(hand_calculation_suite)

// Lame: cylinder a 20, b 30, p 10; sphere a 20, b 25, p 5 (exact).
BOOST_AUTO_TEST_CASE(thick_shells_have_lame_s_stress_at_the_bore) {
  BOOST_TEST(thick_cylinder_stress(10, 20, 10) == 26.0, tt::tolerance(1e-14));
  BOOST_TEST(thick_sphere_stress(5, 20, 5) == 10.36885, tt::tolerance(5e-7));  // seven digits
}

BOOST_AUTO_TEST_CASE(thin_formulas_are_the_limit_of_the_thick_ones) {
  // p r / t with the inner radius is short by t / (2 r) of itself, 1/2000 here.
  BOOST_TEST(thin_cylinder_stress(1, 1000, 1) == thick_cylinder_stress(1, 1000, 1),
             tt::tolerance(6e-4));
  BOOST_TEST(thin_sphere_stress(1, 1000, 1) == thick_sphere_stress(1, 1000, 1),
             tt::tolerance(6e-4));
}

// Practice: a thin-wall reckoning misses 17 % of the stress at the bore at t / r = 0.3.
BOOST_AUTO_TEST_CASE(thick_wall_adds_a_sixth_at_a_wall_of_three_tenths) {
  BOOST_TEST(thick_cylinder_stress(1, 20, 6) / thin_cylinder_stress(1, 20, 6) == 1.17,
             tt::tolerance(5e-3));
}

// Roark's Formulas, 7th ed., Table 11.2; a 50, t 5, p 0.1, nu 0.35 (exact).
BOOST_AUTO_TEST_CASE(round_panels_have_the_handbook_stress) {
  BOOST_TEST(clamped_round_plate_stress(0.1, 50, 5) == 7.5, tt::tolerance(1e-14));
  BOOST_TEST(supported_round_plate_stress(0.1, 50, 5, 0.35) == 12.5625, tt::tolerance(1e-14));
}

// Roark's Formulas, 7th ed., Table 11.4; between its rows Timoshenko & Woinowsky-Krieger, Theory of
// Plates and Shells, Tables 8 and 35, 6 M / (p b^2) at nu 0.3 (from memory).
BOOST_AUTO_TEST_CASE(rectangular_panels_have_the_handbook_stress) {
  const auto supported = [](double a) { return supported_rectangular_plate_stress(1, 1, a, 1); };
  const auto clamped = [](double a) { return clamped_rectangular_plate_stress(1, 1, a, 1); };

  BOOST_TEST(supported(1.0) == 0.2873, tt::tolerance(1e-12));
  BOOST_TEST(supported(1.4) == 0.4533, tt::tolerance(1e-12));
  BOOST_TEST(supported(3.0) == 0.7132, tt::tolerance(1e-12));
  BOOST_TEST(supported(1e9) == 0.75, tt::tolerance(1e-6));
  BOOST_TEST(clamped(1.0) == 0.3080, tt::tolerance(1e-12));
  BOOST_TEST(clamped(2.0) == 0.4977, tt::tolerance(1e-12));
  BOOST_TEST(clamped(1e9) == 0.5, tt::tolerance(1e-6));
  // Interpolation in b / a against rows it does not hold, quoted to three digits.
  BOOST_TEST(supported(1.1) == 6 * 0.0554, tt::tolerance(1.5e-3));
  BOOST_TEST(supported(1.5) == 6 * 0.0812, tt::tolerance(1.5e-3));
  BOOST_TEST(supported(1.9) == 6 * 0.0985, tt::tolerance(1.5e-3));
  BOOST_TEST(clamped(1.3) == 6 * 0.0687, tt::tolerance(1.5e-3));
  BOOST_TEST(clamped(1.7) == 6 * 0.0799, tt::tolerance(1.5e-3));
}

BOOST_AUTO_TEST_CASE(result_names_shape_formula_and_strength) {
  const HandCalculationResult result =
      hand_calculation(tube(HandShape::thick_cylinder), 10, 0.35, strength);

  BOOST_TEST(result.stress_MPa == 26.0, tt::tolerance(1e-14));
  BOOST_TEST(result.safety_factor == 2.0, tt::tolerance(1e-14));
  BOOST_TEST(result.shape == "thick-walled cylinder");
  BOOST_TEST(result.formula.find("Lame") != std::string::npos);
  BOOST_TEST(result.strength == strength.words);
}

BOOST_AUTO_TEST_CASE(vacuum_is_judged_by_its_magnitude) {
  const auto spec = tube(HandShape::thin_cylinder);

  BOOST_TEST(hand_calculation(spec, -10, 0.35, strength).safety_factor ==
             hand_calculation(spec, 10, 0.35, strength).safety_factor);
}

BOOST_AUTO_TEST_CASE(panel_takes_half_the_short_side_and_the_whole_long_one) {
  HandCalculationSpec spec = tube(HandShape::supported_rectangular_panel);
  spec.length = 80;

  const auto result = hand_calculation(spec, 0.1, 0.3, strength);

  BOOST_TEST(result.stress_MPa == 0.6101 * 0.1 * 16, tt::tolerance(1e-12));  // (40 / 10)^2
}

BOOST_AUTO_TEST_CASE(chain_multiplies_to_the_whole_and_names_its_largest_step) {
  const auto spec = tube(HandShape::thin_cylinder);
  HandCalculationResult result = hand_calculation(spec, 10, 0.35, strength);
  const ChainFactors factors{.hand = result.safety_factor,
                             .thick_wall = thick_wall_factor(spec, 10, strength),
                             .real_shape_isotropic = 1.2,
                             .real_shape_anisotropic = 1.1,
                             .full = 0.44};

  add_chain(result, factors);

  BOOST_REQUIRE(result.chain.size() == 4u);
  double product = 1.0;
  for (const ChainStep& step : result.chain) product *= step.ratio;
  BOOST_TEST(product == 0.44 / 2.6, tt::tolerance(1e-14));  // 52 / (10 x 20 / 10) = 2.6
  BOOST_TEST(result.chain[0].ratio == 20.0 / 26.0, tt::tolerance(1e-14));
  BOOST_TEST(result.chain[3].ratio == 0.4, tt::tolerance(1e-14));
  BOOST_TEST(result.sentence.find("largest step is from the printed stiffness to strengths by "
                                  "direction at service conditions: times 0.4") !=
             std::string::npos);
}

BOOST_AUTO_TEST_CASE(chain_skips_what_was_not_computed) {
  HandCalculationResult result =
      hand_calculation(tube(HandShape::thick_cylinder), 10, 0.35, strength);

  add_chain(result, {.hand = 2.0, .full = 0.5});
  BOOST_REQUIRE(result.chain.size() == 1u);
  BOOST_TEST(result.chain[0].ratio == 0.25, tt::tolerance(1e-14));

  add_chain(result, {.hand = 2.0, .real_shape_isotropic = 1.0});
  BOOST_TEST(result.sentence.find("no factor of the full analysis") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(shortcut_materials_keep_one_strength_for_all_directions) {
  const SolidMaterial isotropic_XY = isotropic_with_hand_strength(printed(), strength);
  const SolidMaterial anisotropic = with_hand_strength(printed(), strength);
  const SolidMaterial Z = isotropic_with_Z(printed());

  BOOST_TEST(isotropic_XY.elastic.E_3 == 2000.0);
  BOOST_TEST(std::get<BrittleStrength>(isotropic_XY.strength).tensile == 52.0);
  BOOST_TEST(anisotropic.elastic.E_3 == 1500.0);
  BOOST_TEST(std::get<BrittleStrength>(anisotropic.strength).tensile == 52.0);
  BOOST_TEST(Z.elastic.E_1 == 1500.0);
  BOOST_TEST(std::get<BrittleStrength>(Z.strength).tensile == 25.0);

  SolidMaterial metal = printed();
  metal.strength = DuctileStrength{235};
  const SolidMaterial unchanged = isotropic_with_hand_strength(metal, strength);
  BOOST_TEST(std::get<DuctileStrength>(unchanged.strength).yield == 235.0);
  BOOST_TEST(unchanged.elastic.E_3 == 1500.0);
}

BOOST_AUTO_TEST_CASE(the_trade_takes_the_sheet_s_XY_strength) {
  const MaterialCard card = find_card("pa_cf", ".");

  BOOST_TEST(hand_strength(card, Moisture::dry).value == 103.0);
  BOOST_TEST(hand_strength(card, Moisture::conditioned).value == 63.0);
  BOOST_TEST(hand_strength(find_card("steel", "."), Moisture::dry).value == 235.0);
}

BOOST_AUTO_TEST_CASE(a_shape_without_a_size_is_refused_with_its_place) {
  HandCalculationSpec no_wall = tube(HandShape::thin_cylinder);
  no_wall.wall = 0;
  HandCalculationSpec short_panel = tube(HandShape::clamped_rectangular_panel);
  short_panel.length = 30;

  BOOST_TEST(refused([&] { hand_calculation(no_wall, 1, 0.3, strength); },
                     "case.toml:12: hand calculation: wall must be positive, it is 0 mm"));
  BOOST_TEST(
      refused([&] { hand_calculation(short_panel, 1, 0.3, strength); }, "long side of the panel"));
  BOOST_TEST(refused([&] { hand_calculation(tube(HandShape::none), 1, 0.3, strength); },
                     "no shape is named"));
  BOOST_TEST(refused([&] { hand_calculation(tube(HandShape::thin_sphere), 0, 0.3, strength); },
                     "pressure is zero"));
}

BOOST_AUTO_TEST_SUITE_END()
