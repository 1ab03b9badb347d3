// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/conditions/constant_ends.h"

#include <algorithm>
#include <boost/test/unit_test.hpp>

using namespace crossgrain;
using boost::test_tools::tolerance;

namespace {

MaterialAtConditions of_card(const std::string& card, double duration_s = 360.0) {
  ServiceConditions conditions;
  conditions.duration_s = duration_s;
  return material_at(find_card(card, "."), conditions);
}

std::size_t place_of(const std::vector<RangedConstant>& constants, const std::string& name) {
  const auto found = std::ranges::find(constants, name, &RangedConstant::name);
  BOOST_TEST_REQUIRE((found != constants.end()), name);
  return static_cast<std::size_t>(found - constants.begin());
}

double layer_tension(const SolidMaterial& solid) {
  return std::get<LayeredStrength>(solid.strength).Zt;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(constant_ends)

BOOST_AUTO_TEST_CASE(with_all_numbers_at_an_end_a_card_gives_the_set_of_that_end) {
  constexpr double a_year_s = 365.0 * 86400.0;
  for (const std::string& card : known_cards()) {
    const MaterialAtConditions material = of_card(card, a_year_s);
    const std::size_t count = ranged_constants(material).size();
    BOOST_TEST_CONTEXT(card) {
      for (const auto& [end, set] :
           {std::pair(RangeEnd::low, material.low), std::pair(RangeEnd::high, material.high)}) {
        const auto [solid, way] = solid_at_ends(material, std::vector(count, end));
        BOOST_TEST(way == 1.0);
        BOOST_TEST(solid.elastic.E_3 == set.elastic.E_3, tolerance(1e-14));
        BOOST_TEST(solid.elastic.G_13 == set.elastic.G_13, tolerance(1e-14));
        BOOST_TEST(solid.density == set.density, tolerance(1e-14));
        const Vector6d pull = (Vector6d() << 1, 2, 3, 1, 2, 1).finished();
        for (const FailureMode mode : governing_modes(set.strength, Criterion::interactive))
          BOOST_TEST(
              failure_index(mode, solid.strength, pull) == failure_index(mode, set.strength, pull),
              tolerance(1e-12));
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(one_number_at_its_end_leaves_the_others_nominal) {
  const MaterialAtConditions abs = of_card("abs", 3600.0 * 100.0);
  const auto constants = ranged_constants(abs);
  std::vector<RangeEnd> ends(constants.size(), RangeEnd::value);
  const std::size_t Zt = place_of(constants, "Zt");
  ends[Zt] = RangeEnd::low;

  const SolidMaterial solid = solid_at_ends(abs, ends).solid;

  const Ranged range = constants[Zt].range;
  BOOST_TEST(layer_tension(solid) == layer_tension(abs.nominal) * range.low / range.value,
             tolerance(1e-14));
  BOOST_TEST(solid.elastic.E_3 == abs.nominal.elastic.E_3);
  BOOST_TEST(std::get<LayeredStrength>(solid.strength).Sz ==
             std::get<LayeredStrength>(abs.nominal.strength).Sz);
}

BOOST_AUTO_TEST_CASE(what_a_condition_leaves_moves_all_strengths_or_all_moduli) {
  const MaterialAtConditions abs = of_card("abs", 3600.0 * 100.0);
  const auto constants = ranged_constants(abs);
  const std::size_t kept = place_of(constants, "strength kept (sustained load)");
  std::vector<RangeEnd> ends(constants.size(), RangeEnd::value);
  ends[kept] = RangeEnd::high;

  const SolidMaterial solid = solid_at_ends(abs, ends).solid;

  BOOST_TEST(constants[kept].is_strength);
  BOOST_TEST(!constants[place_of(constants, "modulus kept (sustained load)")].is_strength);
  // 100 h are three decades past 0.1 h: 1 - 3 x 0.16, at best 1 - 3 x 0.12 (the card's rule).
  BOOST_TEST(layer_tension(solid) / layer_tension(abs.nominal) == 0.64 / 0.52, tolerance(1e-12));
  BOOST_TEST(solid.elastic.E_3 == abs.nominal.elastic.E_3);
}

BOOST_AUTO_TEST_CASE(an_end_that_no_solid_can_have_is_gone_towards_as_far_as_one_can) {
  MaterialCard card;
  card.name = "mine";
  card.file = "mine.toml";
  card.kind = MaterialKind::layered;
  card.nature = PolymerNature::amorphous;
  const auto exact = [](double value) {
    return CardValue{value, value, value, Standing::measured, "bars"};
  };
  card.dry = {{"E_layer", exact(2000)}, {"E_build", exact(1500)}, {"nu_12", exact(0.3)},
              {"G_build", exact(600)},  {"Xt", exact(40)},        {"Zt", exact(20)}};
  // 1 - nu_12 - 2 nu_13^2 E_build / E_layer > 0 ends at nu_13 = 0.683.
  card.dry["nu_13"] = {0.5, 0.4, 0.9, Standing::estimated, "a guess"};
  const MaterialAtConditions material = material_at(card, {});
  const auto constants = ranged_constants(material);
  std::vector<RangeEnd> ends(constants.size(), RangeEnd::value);
  ends[place_of(constants, "nu_13")] = RangeEnd::high;

  const auto [solid, way] = solid_at_ends(material, ends);

  BOOST_TEST(!inadmissibility(solid.elastic).has_value());
  BOOST_TEST(solid.elastic.nu_13 > 0.6);
  BOOST_TEST(solid.elastic.nu_13 < 0.683);
  BOOST_TEST(way == (solid.elastic.nu_13 - 0.5) / 0.4, tolerance(1e-9));
}

BOOST_AUTO_TEST_SUITE_END()
