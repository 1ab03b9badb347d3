// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/seat_limits.h"

#include <boost/test/unit_test.hpp>
#include <limits>
#include <stdexcept>

using namespace crossgrain;
using boost::test_tools::tolerance;

namespace {

const Strength layered = LayeredStrength{50.0, 60.0, 20.0, 40.0, 12.0};

}  // namespace

BOOST_AUTO_TEST_SUITE(seat_limits)

BOOST_AUTO_TEST_CASE(a_head_presses_along_its_screw) {
  BOOST_TEST(seat_bearing_limit(layered, true, 0.25, false).value == 10.0, tolerance(1e-12));
  BOOST_TEST(seat_bearing_limit(layered, false, 0.25, false).value == 15.0, tolerance(1e-12));
  BOOST_TEST((seat_bearing_limit(layered, true, 0.25, false).standing == LimitStanding::memory));
  BOOST_TEST((seat_bearing_limit(layered, true, 0.25, true).standing == LimitStanding::given));
  BOOST_TEST(seat_bearing_limit(DuctileStrength{200.0}, true, 0.5, true).value == 100.0,
             tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(layers_are_pulled_apart_at_their_own_strength) {
  MaterialAtConditions material{};
  material.nominal.strength = layered;
  BOOST_TEST(seat_tension_limit(material).value == 20.0);

  material.nominal.strength = BrittleStrength{35.0};
  BOOST_TEST(seat_tension_limit(material).value == 35.0);
}

BOOST_AUTO_TEST_CASE(a_limit_stands_on_its_cards_authority) {
  MaterialAtConditions material{};
  material.nominal.strength = layered;
  BOOST_TEST((seat_tension_limit(material).standing == LimitStanding::data_sheet));

  material.assumptions.push_back({"Sz", 12.0, 9.0, 16.0, "MPa", Standing::memory, ""});
  BOOST_TEST((seat_tension_limit(material).standing == LimitStanding::data_sheet));
  material.assumptions.push_back({"Zt", 20.0, 14.0, 28.0, "MPa", Standing::estimated, ""});
  BOOST_TEST((seat_tension_limit(material).standing == LimitStanding::estimated));
  material.nominal.strength = DuctileStrength{30.0};
  material.assumptions.push_back({"yield", 30.0, 24.0, 36.0, "MPa", Standing::memory, ""});
  BOOST_TEST((seat_tension_limit(material).standing == LimitStanding::memory));
}

BOOST_AUTO_TEST_CASE(an_insert_is_held_by_shear_between_layers) {
  MaterialAtConditions material{};
  material.nominal.strength = layered;
  material.low.strength = LayeredStrength{50.0, 60.0, 20.0, 40.0, 9.0};
  material.high.strength = DuctileStrength{30.0};

  const ShearStrength strength = seat_shear_strength(material);

  BOOST_TEST(strength.value == 12.0);
  BOOST_TEST(strength.low == 9.0);
  BOOST_TEST(strength.high == 17.3205, tolerance(1e-5));
}

BOOST_AUTO_TEST_CASE(a_strength_that_is_no_number_is_refused) {
  const Strength none =
      LayeredStrength{50.0, 60.0, 20.0, std::numeric_limits<double>::quiet_NaN(), 12.0};

  BOOST_CHECK_THROW(seat_bearing_limit(none, true, 0.25, false), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
