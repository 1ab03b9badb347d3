// SPDX-License-Identifier: GPL-3.0-or-later
// What the judge of a joint is told about screws, from the case, the part and the cards.
#include "cases/judgement/screw_facts.h"

#include <boost/test/unit_test.hpp>

#include "materials/card_file/card.h"

using namespace crossgrain;
using boost::test_tools::tolerance;

namespace {

const Eigen::Vector3d up(0.0, 0.0, 1.0), sideways(1.0, 0.0, 0.0);

MaterialAtConditions at_rest(const char* card) { return material_at(find_card(card, {}), {}); }

/// Two M5 of a group whose screws come after three others, in blind holes 9.5 mm deep.
struct Group {
  BoltSpec spec;
  JoinedScrews joined{};
  std::vector<ElasticScrew> screws{5};

  Group() {
    spec.name = "lid screws";
    spec.size = "M5";
    spec.strength_class = "8.8";
    spec.head_diameter = 12.0;
    spec.torque = 1100.0;
    spec.friction = TighteningFriction{0.2, 0.15};
    spec.length = 20.0;
    joined.first = 3;
    joined.count = 2;
    joined.preload = {400.0, 600.0, 800.0};
    joined.clamped_length = 12.5;
    joined.hole = {.id = 1,
                   .body = BodyId{1},
                   .diameter = 6.4,
                   .axis = up,
                   .mouth = Eigen::Vector3d::Zero(),
                   .depth = 9.5,
                   .through = false,
                   .wall = {},
                   .floor = {},
                   .seat = {},
                   .counterbore_diameter = {}};
    for (int s = 0; s < 5; ++s) screws[s].head.centre = Eigen::Vector3d(s, 0.0, 18.0);
  }
  ScrewGroupFacts facts(const MaterialAtConditions& material,
                        const Eigen::Vector3d& print_direction) const {
    return screw_group_facts(spec, joined, screws, material, print_direction);
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(screw_facts)

BOOST_AUTO_TEST_CASE(a_group_is_told_by_its_case) {
  const ScrewGroupFacts facts = Group().facts(at_rest("petg"), up);

  BOOST_TEST(facts.name == "lid screws");
  BOOST_TEST(facts.size.name == "M5");
  BOOST_TEST(facts.strength.yield == 640.0);  // ISO 898-1: 8 x 100 x 0.8
  BOOST_TEST(facts.count == 2);
  BOOST_TEST(facts.preload.least == 400.0);
  BOOST_TEST(facts.preload.greatest == 800.0);
  BOOST_TEST(facts.torque.value() == 1100.0);
  BOOST_TEST(facts.friction.value().head == 0.15);
  BOOST_TEST(facts.head_outer == 12.0);
  BOOST_TEST(facts.hole == 5.5);  // ISO 273, medium
  BOOST_REQUIRE(facts.seats.size() == 2u);
  BOOST_TEST(facts.seats[1].x() == 4.0);
}

BOOST_AUTO_TEST_CASE(inserts_are_in_printed_bodies) {
  Group group;
  const ScrewGroupFacts drawn = group.facts(at_rest("petg"), up);
  BOOST_REQUIRE(drawn.insert.has_value());
  BOOST_TEST(drawn.insert->diameter == 6.4);  // of the hole, where the case is silent
  BOOST_TEST(drawn.insert->length == 9.5);

  group.spec.insert_diameter = 7.1;
  group.spec.insert_length = 8.0;
  BOOST_TEST(group.facts(at_rest("petg"), up).insert->diameter == 7.1);
  BOOST_TEST(group.facts(at_rest("petg"), up).insert->length == 8.0);
  BOOST_TEST(!group.facts(at_rest("aluminium"), up).insert);
}

BOOST_AUTO_TEST_CASE(an_insert_lies_along_the_build_or_in_the_layer) {
  const Group group;
  const auto material = at_rest("petg");

  BOOST_TEST(group.facts(material, up).insert_along_build);
  BOOST_TEST(group.facts(material, -up).insert_along_build);
  BOOST_TEST(!group.facts(material, sideways).insert_along_build);
}

BOOST_AUTO_TEST_CASE(a_screw_bottoms_in_blind_holes_only) {
  Group group;
  // 12.5 + 9.5 - 20 by hand.
  BOOST_TEST(group.facts(at_rest("petg"), up).depth_under_tip.value() == 2.0, tolerance(1e-12));

  group.joined.hole.through = true;
  BOOST_TEST(!group.facts(at_rest("petg"), up).depth_under_tip);
  group.joined.hole.through = false;
  group.spec.length.reset();
  BOOST_TEST(!group.facts(at_rest("petg"), up).depth_under_tip);
}

BOOST_AUTO_TEST_CASE(seats_stand_what_their_cards_say_on_their_authority) {
  Group group;
  group.spec.pull_out = 1600.0;
  const auto petg = at_rest("petg");
  const double Zt = std::get<LayeredStrength>(petg.nominal.strength).Zt;

  const auto facts = group.facts(petg, up);
  const SeatLimits limits = seat_limits(group.spec, facts, up, {petg, up}, {petg, up});

  BOOST_TEST(limits.across_layers->value == Zt);
  // The card's numbers are from memory, so that a joint that breaks the limit is in doubt.
  BOOST_TEST((limits.across_layers->standing == LimitStanding::memory));
  BOOST_TEST((limits.pull_out->standing == LimitStanding::given));
  group.spec.pull_out.reset();
  const SeatLimits unknown = seat_limits(group.spec, facts, up, {petg, up}, {petg, up});
  BOOST_TEST((unknown.pull_out->standing == LimitStanding::estimated));
}

BOOST_AUTO_TEST_CASE(a_head_presses_along_or_across_the_layers_of_its_own_body) {
  const Group group;
  const auto petg = at_rest("petg");
  const auto& strength = std::get<LayeredStrength>(petg.nominal.strength);
  const auto facts = group.facts(petg, up);

  const auto along = seat_limits(group.spec, facts, up, {petg, up}, {petg, sideways});
  const auto across = seat_limits(group.spec, facts, up, {petg, sideways}, {petg, up});

  BOOST_TEST(along.bearing->value / across.bearing->value == strength.Zc / strength.Xc,
             tolerance(1e-12));
}

BOOST_AUTO_TEST_SUITE_END()
