// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/units/quantity.h"

#include <boost/test/unit_test.hpp>

#include "tests/support/refusal.h"

using crossgrain::Dimension;
using crossgrain::parse_quantity;
using crossgrain::testing::refused;
namespace tt = boost::test_tools;

BOOST_AUTO_TEST_SUITE(quantity)

struct Reading {
  const char* text;
  Dimension dimension;
  double internal;
};

// Conversion factors: NIST Special Publication 811 (2008), appendix B.8, seven digits (from
// memory).
BOOST_AUTO_TEST_CASE(units_convert_as_the_published_table_says) {
  const Reading readings[] = {
      {"0.4 MPa", Dimension::pressure, 0.4},
      {"4 bar", Dimension::pressure, 0.4},
      {"1 psi", Dimension::pressure, 6.894757e-3},
      {"1ksi", Dimension::pressure, 6.894757},
      {"2 GPa", Dimension::pressure, 2000.0},
      {"101325 Pa", Dimension::pressure, 0.101325},
      {"10 mbar", Dimension::pressure, 1e-3},
      {"1 m H2O", Dimension::pressure, 9.80665e-3},
      {"1 mH2O", Dimension::pressure, 9.80665e-3},
      {"1 in H2O", Dimension::pressure, 2.490889e-4},
      {"760 mmHg", Dimension::pressure, 0.101325},
      {"-0.9 barg", Dimension::pressure, -0.09},
      {"14 psig", Dimension::pressure, 0.0965266},
      {"1 lbf", Dimension::force, 4.448222},
      {"1 kgf", Dimension::force, 9.80665},
      {"2 kN", Dimension::force, 2000.0},
      {"2.5 N m", Dimension::torque, 2500.0},
      {"2.5 N*m", Dimension::torque, 2500.0},
      {"2.5 Nm", Dimension::torque, 2500.0},
      {"1 lbf in", Dimension::torque, 112.9848},
      {"1 in-lb", Dimension::torque, 112.9848},
      {"1 ft lbf", Dimension::torque, 1355.818},
      {"60 degC", Dimension::temperature, 333.15},
      {"60 \u00b0C", Dimension::temperature, 333.15},
      {"212 degF", Dimension::temperature, 373.15},
      {"-40 degF", Dimension::temperature, 233.15},
      {"60 degC", Dimension::temperature_change, 60.0},
      {"18 degF", Dimension::temperature_change, 10.0},
      {"1 in", Dimension::length, 25.4},
      {"1 ft", Dimension::length, 304.8},
      {"35 um", Dimension::length, 0.035},
      {"2 cm^2", Dimension::area, 200.0},
      {"1 L", Dimension::volume, 1e6},
      {"90 deg", Dimension::angle, 1.5707963267948966},
      {"1.24 g/cm3", Dimension::density, 1.24e-9},
      {"1000 kg/m\u00b3", Dimension::density, 1e-9},
      {"1 lb/in3", Dimension::density, 2.767990e-8},
      {"1 g", Dimension::acceleration, 9806.65},
      {"9.81 m/s2", Dimension::acceleration, 9810.0},
      {"30 min", Dimension::duration, 1800.0},
      {"1000 h", Dimension::duration, 3.6e6},
      {"1 year", Dimension::duration, 3.15576e7},
      {"80 um/(m K)", Dimension::thermal_expansion, 80e-6},
      {"80 \u00b5m/(m\u00b7K)", Dimension::thermal_expansion, 80e-6},
      {"80e-6 1/K", Dimension::thermal_expansion, 80e-6},
      {"3 %", Dimension::fraction, 0.03},
      {"0.03", Dimension::fraction, 0.03},
      {"+1e-1 MPa", Dimension::pressure, 0.1},
  };

  for (const Reading& reading : readings) {
    BOOST_TEST_CONTEXT(reading.text)
    // The table quotes seven digits.
    BOOST_TEST(parse_quantity(reading.text, reading.dimension) == reading.internal,
               tt::tolerance(5e-7));
  }
}

BOOST_AUTO_TEST_CASE(what_is_not_a_quantity_is_refused_with_a_remedy) {
  struct Refusal {
    const char* text;
    Dimension dimension;
    const char* message;
  };
  const Refusal refusals[] = {
      {"0.4", Dimension::pressure, "unit is missing; a pressure, modulus or strength is due here"},
      {"0.4", Dimension::pressure, "MPa, kPa, bar, psi"},
      {"12 mm", Dimension::pressure, "\"mm\" is a unit of length"},
      {"12 deg", Dimension::pressure, "\"deg\" is a unit of angle"},
      {"0.4 mpa", Dimension::pressure, "did you mean \"MPa\""},
      {"0.4 mPa", Dimension::pressure, "write \"MPa\" for megapascal"},
      {"0.4 furlong", Dimension::length, "unknown unit \"furlong\""},
      {"5 bara", Dimension::pressure, "give the gauge pressure"},
      {"14.7 psia", Dimension::pressure, "subtract 14.696 psi"},
      {"60 C", Dimension::temperature, "write \"degC\""},
      {"60 C", Dimension::temperature_change, "write \"degC\""},
      {"3 kg", Dimension::force, "write \"kgf\" for a force"},
      {"nan MPa", Dimension::pressure, "not finite"},
      {"inf MPa", Dimension::pressure, "not finite"},
      {"1e999 MPa", Dimension::pressure, "too large"},
      {"1e306 GPa", Dimension::pressure, "too large"},
      {"1,5 bar", Dimension::pressure, "decimal comma"},
      {"MPa", Dimension::pressure, "no number at the start"},
      {"", Dimension::pressure, "no number at the start"},
      {"5 MPa extra", Dimension::pressure, "unknown unit \"MPa extra\""},
      {"-300 degC", Dimension::temperature, "colder than absolute zero"},
  };

  for (const Refusal& refusal : refusals) {
    BOOST_TEST_CONTEXT(refusal.text)
    BOOST_TEST(refused([&] { parse_quantity(refusal.text, refusal.dimension); }, refusal.message));
  }
}

BOOST_AUTO_TEST_SUITE_END()
