// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/conditions/material.h"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <limits>

#include "tests/support/refusal.h"

using namespace crossgrain;
using crossgrain::testing::refused;
namespace tt = boost::test_tools;

namespace {

/// A sheet with XY figures only, taken as exact.
MaterialCard xy_sheet(bool short_fibre = false) {
  MaterialCard card;
  card.name = "mine";
  card.file = "mine.toml";
  card.kind = MaterialKind::layered;
  card.nature = PolymerNature::amorphous;
  card.short_fibre = short_fibre;
  card.glass_transition_K = 353.15;
  card.dry["E_layer"] = {2000, 2000, 2000, Standing::data_sheet, "sheet"};
  card.dry["Xt"] = {50, 50, 50, Standing::data_sheet, "sheet"};
  return card;
}

LayeredStrength strength_of(const SolidMaterial& material) {
  return std::get<LayeredStrength>(material.strength);
}

const Assumption& assumed(const MaterialAtConditions& material, const std::string& quantity) {
  const auto found = std::find_if(material.assumptions.begin(), material.assumptions.end(),
                                  [&](const Assumption& a) { return a.quantity == quantity; });
  BOOST_REQUIRE_MESSAGE(found != material.assumptions.end(), quantity);
  return *found;
}

const KnockDown& knock_down(const MaterialAtConditions& material, const std::string& cause,
                            const std::string& applies) {
  const auto found =
      std::find_if(material.knock_downs.begin(), material.knock_downs.end(),
                   [&](const KnockDown& k) { return k.cause == cause && k.applies == applies; });
  BOOST_REQUIRE_MESSAGE(found != material.knock_downs.end(), cause);
  return *found;
}

void check_range(const Assumption& a, double low, double value, double high) {
  BOOST_TEST_CONTEXT(a.quantity) {
    BOOST_TEST(a.low == low, tt::tolerance(1e-9));
    BOOST_TEST(a.value == value, tt::tolerance(1e-9));
    BOOST_TEST(a.high == high, tt::tolerance(1e-9));
    BOOST_TEST((a.standing == Standing::estimated));
    BOOST_TEST(!a.rule.empty());
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(material)

// The rules of thumb are common practice, no source; the arithmetic is done by hand here.
BOOST_AUTO_TEST_CASE(what_an_unfilled_sheet_leaves_out_is_estimated_with_its_range) {
  const MaterialAtConditions m = material_at(xy_sheet(), {});

  check_range(assumed(m, "E_build"), 1200, 1500, 2000);
  check_range(assumed(m, "nu_12"), 0.30, 0.35, 0.42);
  check_range(assumed(m, "nu_13"), 0.25, 0.35, 0.45);
  check_range(assumed(m, "Xt"), 25, 35, 50);
  check_range(assumed(m, "Xc"), 50, 50, 75);
  check_range(assumed(m, "Zt"), 15, 25, 35);
  check_range(assumed(m, "Zc"), 15, 40, 75);
  check_range(assumed(m, "Sz"), 6.75, 15, 28);
  // 0.8 sqrt(2000 x 1500) / (2 (1 + 0.35 sqrt(0.75))); nu_31 = 0.35 x 0.75.
  BOOST_TEST(assumed(m, "G_build").value == 0.8 * 1732.0508 / (2 * (1 + 0.30310889)),
             tt::tolerance(1e-7));
}

BOOST_AUTO_TEST_CASE(short_fibre_has_weaker_layers) {
  const MaterialAtConditions m = material_at(xy_sheet(true), {});

  check_range(assumed(m, "E_build"), 600, 900, 1400);
  check_range(assumed(m, "Zt"), 10, 15, 25);
}

BOOST_AUTO_TEST_CASE(weak_and_strong_ends_hold_the_ranges) {
  const MaterialAtConditions m = material_at(xy_sheet(), {});

  BOOST_TEST(strength_of(m.nominal).Xt == 35.0, tt::tolerance(1e-12));
  BOOST_TEST(strength_of(m.low).Zt == 15.0, tt::tolerance(1e-12));
  BOOST_TEST(strength_of(m.high).Sz == 28.0, tt::tolerance(1e-12));
  BOOST_TEST(m.low.elastic.E_3 == 1200.0, tt::tolerance(1e-12));
  BOOST_TEST(m.high.elastic.E_3 == 2000.0, tt::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_measured_strength_across_the_beads_replaces_the_rule) {
  MaterialCard card = xy_sheet();
  card.dry["Yt"] = {41, 41, 41, Standing::measured, "own bars"};

  BOOST_TEST(strength_of(material_at(card, {}).nominal).Xt == 41.0);
}

// Ahn et al., Rapid Prototyping J. 8(4) 2002: printed ABS keeps 0.65 to 0.72 of the moulded tensile
// strength (from memory).
BOOST_AUTO_TEST_CASE(moulded_bars_are_brought_down_to_printed_ones) {
  MaterialCard card = xy_sheet();
  card.bars = Bars::moulded;

  const MaterialAtConditions m = material_at(card, {});

  BOOST_TEST(strength_of(m.nominal).Xt == 50 * 0.68 * 0.7, tt::tolerance(1e-12));
  BOOST_TEST(strength_of(m.low).Xt == 50 * 0.65 * 0.5, tt::tolerance(1e-12));
  BOOST_TEST(m.nominal.elastic.E_1 == 1700.0, tt::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(every_card_of_the_program_is_admissible_dry_and_conditioned) {
  for (const std::string& name : known_cards())
    for (const Moisture moisture : {Moisture::dry, Moisture::conditioned}) {
      BOOST_TEST_CONTEXT(name) {
        const MaterialAtConditions m =
            material_at(find_card(name, "."), {.moisture = moisture, .duration_s = 3.6e6});
        for (const SolidMaterial* end : {&m.low, &m.nominal, &m.high})
          BOOST_CHECK_NO_THROW(require_admissible(end->elastic));
        BOOST_TEST(m.sustained_modulus_MPa > 0.0);
        for (const Assumption& a : m.assumptions) {
          BOOST_TEST(a.low <= a.value, a.quantity);
          BOOST_TEST(a.value <= a.high, a.quantity);
          BOOST_TEST(!a.rule.empty(), a.quantity);
        }
      }
    }
}

BOOST_AUTO_TEST_CASE(conditioned_nylon_is_softer_and_weaker_than_dry) {
  const MaterialCard card = find_card("pa_cf", ".");
  const auto dry = material_at(card, {});
  const auto conditioned = material_at(card, {.moisture = Moisture::conditioned});

  BOOST_TEST(dry.nominal.elastic.E_1 == 8386.0);
  BOOST_TEST(conditioned.nominal.elastic.E_1 == 5052.0);
  BOOST_TEST(strength_of(conditioned.nominal).Xt == 0.7 * 63.0, tt::tolerance(1e-12));
  BOOST_TEST(conditioned.knock_downs.empty());
}

BOOST_AUTO_TEST_CASE(a_card_without_conditioned_values_widens_the_range_when_wet) {
  const auto m = material_at(xy_sheet(), {.moisture = Moisture::conditioned});

  BOOST_TEST(knock_down(m, "moisture", "strength").value == 1.0);
  BOOST_TEST(strength_of(m.low).Xt == 0.9 * 25.0, tt::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(an_amorphous_polymer_loses_strength_linearly_to_its_glass_transition) {
  const auto m = material_at(xy_sheet(), {.temperature_K = 333.15});

  const KnockDown& k = knock_down(m, "temperature", "strength");
  BOOST_TEST(k.value == 20.0 / 57.0, tt::tolerance(1e-12));
  BOOST_TEST(k.low == 20.0 / 57.0 - 0.1, tt::tolerance(1e-12));
  BOOST_TEST(strength_of(m.nominal).Zt == 25.0 * 20.0 / 57.0, tt::tolerance(1e-12));
  BOOST_TEST(m.nominal.elastic.E_1 == 2000.0 * 20.0 / 57.0, tt::tolerance(1e-12));
  BOOST_TEST(material_at(xy_sheet(), {.temperature_K = 278.15}).knock_downs.empty());
}

BOOST_AUTO_TEST_CASE(temperature_points_are_interpolated_from_23_degC) {
  MaterialCard card = xy_sheet();
  card.nature = PolymerNature::semi_crystalline;
  card.temperature_points = {{333.15, 0.6, 0.4, Standing::data_sheet, "sheet"},
                             {353.15, 0.5, 0.2, Standing::data_sheet, "sheet"}};

  const auto at = [&](double celsius) {
    return material_at(card, {.temperature_K = celsius + 273.15});
  };

  BOOST_TEST(knock_down(at(41.5), "temperature", "strength").value == 0.8, tt::tolerance(1e-9));
  BOOST_TEST(knock_down(at(70), "temperature", "modulus").value == 0.3, tt::tolerance(1e-9));
  BOOST_TEST(knock_down(at(80), "temperature", "strength").value == 0.5, tt::tolerance(1e-9));
  BOOST_TEST(at(10).knock_downs.empty());
}

BOOST_AUTO_TEST_CASE(time_under_load_takes_off_a_share_per_decade_of_hours) {
  const auto m = material_at(xy_sheet(), {.duration_s = 1000 * 3600.0});

  const KnockDown& k = knock_down(m, "sustained load", "strength");  // four decades past 0.1 h
  BOOST_TEST(k.low == 1 - 4 * 0.19, tt::tolerance(1e-9));
  BOOST_TEST(k.value == 1 - 4 * 0.16, tt::tolerance(1e-9));
  BOOST_TEST(k.high == 1 - 4 * 0.12, tt::tolerance(1e-9));
  BOOST_TEST(m.sustained_modulus_MPa == 0.45 * 1500, tt::tolerance(1e-9));
  const auto decades = material_at(xy_sheet(), {.duration_s = 1e6 * 3600.0});
  BOOST_TEST(knock_down(decades, "sustained load", "strength").value == 0.2);
  BOOST_TEST(material_at(xy_sheet(), {.duration_s = 60.0}).knock_downs.empty());
}

BOOST_AUTO_TEST_CASE(cycles_take_off_three_quarters_in_a_million) {
  const auto kept = [](double cycles) {
    return knock_down(material_at(xy_sheet(), {.cycles = cycles}), "cycles", "strength").value;
  };

  BOOST_TEST(kept(1e4) == 0.75, tt::tolerance(1e-12));
  BOOST_TEST(kept(1e6) == 0.25, tt::tolerance(1e-12));
  BOOST_TEST(kept(5e6) == 0.25, tt::tolerance(1e-12));
  BOOST_TEST(material_at(xy_sheet(), {.cycles = 1000}).knock_downs.empty());
}

BOOST_AUTO_TEST_CASE(knock_downs_multiply) {
  const auto m =
      material_at(xy_sheet(), {.temperature_K = 333.15, .duration_s = 360000.0, .cycles = 1e4});

  BOOST_TEST(strength_of(m.nominal).Zt == 25.0 * (20.0 / 57.0) * (1 - 3 * 0.16) * 0.75,
             tt::tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(steel_neither_creeps_nor_softens_in_a_warm_room) {
  const auto m = material_at(find_card("steel", "."),
                             {.temperature_K = 343.15, .duration_s = 3e8, .cycles = 10});

  BOOST_TEST(m.knock_downs.empty());
  BOOST_TEST(std::get<DuctileStrength>(m.nominal.strength).yield == 235.0);
}

BOOST_AUTO_TEST_CASE(conditions_that_no_rule_covers_are_refused_with_a_remedy) {
  MaterialCard semi = xy_sheet();
  semi.nature = PolymerNature::semi_crystalline;
  MaterialCard pointed = xy_sheet();
  pointed.temperature_points = {{333.15, 0.6, 0.4, Standing::data_sheet, "sheet"}};
  MaterialCard unnamed = xy_sheet();
  unnamed.glass_transition_K.reset();
  const double nan = std::numeric_limits<double>::quiet_NaN();
  struct Refusal {
    MaterialCard card;
    ServiceConditions conditions;
    const char* message;
  };
  const Refusal refusals[] = {
      {semi,
       {.temperature_K = 313.15},
       "mine.toml: it is 40 degC, but above 23 degC the strength "
       "of a semi-crystalline polymer"},
      {semi, {.temperature_K = 313.15}, "add [[temperature]] points"},
      {xy_sheet(), {.temperature_K = 351.15}, "78 degC is too close to the glass transition of 80"},
      {xy_sheet(), {.temperature_K = 400.0}, "no strength is left to rely on"},
      {pointed, {.temperature_K = 343.15}, "temperature points end at 60 degC"},
      {unnamed, {.temperature_K = 313.15}, "neither a glass_transition nor"},
      {find_card("steel", "."), {.temperature_K = 423.15}, "above 100 degC"},
      {xy_sheet(), {.cycles = 1e8}, "past what is known"},
      {xy_sheet(), {.temperature_K = nan}, "above absolute zero"},
      {xy_sheet(), {.duration_s = 0.0}, "time under load must be positive"},
      {xy_sheet(), {.cycles = nan}, "number of load cycles"},
  };

  for (const Refusal& refusal : refusals) {
    BOOST_TEST_CONTEXT(refusal.message)
    BOOST_TEST(refused([&] { material_at(refusal.card, refusal.conditions); }, refusal.message));
  }
}

BOOST_AUTO_TEST_CASE(a_card_that_stores_negative_energy_is_refused_by_name) {
  MaterialCard card = xy_sheet();
  card.dry["nu_12"] = {0.6, 0.6, 0.6, Standing::measured, "own bars"};
  card.dry["nu_13"] = {0.6, 0.6, 0.6, Standing::measured, "own bars"};
  card.dry["E_build"] = {2000, 2000, 2000, Standing::measured, "own bars"};

  BOOST_TEST(refused([&] { material_at(card, {}); },
                     "mine.toml: elastic constants: 1 - nu_12 nu_21 - nu_23 nu_32"));
}

BOOST_AUTO_TEST_SUITE_END()
