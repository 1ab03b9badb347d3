// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/stored_energy.h"

#include <boost/test/unit_test.hpp>
#include <limits>

#include "tests/support/refusal.h"

using namespace crossgrain;
using crossgrain::testing::refused;
namespace tt = boost::test_tools;

namespace {

constexpr double litre = 1e6;  // mm^3

}  // namespace

BOOST_AUTO_TEST_SUITE(stored_energy_suite)

// ASME PCC-2, article 501, appendix II: a litre of air (four and three digits).
BOOST_AUTO_TEST_CASE(a_litre_of_compressed_air_stores_what_the_standard_says) {
  BOOST_TEST(gas_energy(1.0, litre) / 1e3 == 1362.0, tt::tolerance(4e-4));
  BOOST_TEST(gas_energy(0.6, litre) / 1e3 == 745.0, tt::tolerance(7e-4));
  BOOST_TEST(gas_energy(0.0, litre) == 0.0);
}

// A litre of water at 1 MPa stores about 0.23 J (two digits).
BOOST_AUTO_TEST_CASE(water_stores_six_thousand_times_less) {
  BOOST_TEST(liquid_energy(1.0, litre, 2200) / 1e3 == 0.23, tt::tolerance(0.02));
}

BOOST_AUTO_TEST_CASE(the_three_stores_are_told_apart) {
  Conditions conditions;
  conditions.trapped_air_fraction = 0.02;

  const StoredEnergy water = stored_energy(conditions, 1.0, litre, 3000.0);
  BOOST_TEST(water.fluid_J == 0.98 / 4.4, tt::tolerance(1e-12));
  BOOST_TEST(water.wall_J == 3.0, tt::tolerance(1e-14));
  BOOST_TEST(water.unbled_air_J == 0.02 * 1362.0, tt::tolerance(4e-4));
  BOOST_TEST(water.total_J() == water.fluid_J + water.wall_J + water.unbled_air_J);

  conditions.medium = Medium::gas;
  const StoredEnergy air = stored_energy(conditions, 1.0, litre, 3000.0);
  BOOST_TEST(air.fluid_J == 1362.0, tt::tolerance(4e-4));
  BOOST_TEST(air.unbled_air_J == 0.0);
}

BOOST_AUTO_TEST_CASE(vacuum_stores_the_work_of_the_atmosphere) {
  BOOST_TEST(gas_energy(-0.09, litre) == 0.09 * litre, tt::tolerance(1e-14));
}

BOOST_AUTO_TEST_CASE(what_is_not_a_number_is_refused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();

  BOOST_TEST(refused([&] { stored_energy({}, nan, litre, 0.0); }, "must be finite"));
  BOOST_TEST(refused([&] { stored_energy({}, 1.0, nan, 0.0); }, "must be finite"));
  BOOST_TEST(refused([&] { stored_energy({}, 1.0, litre, nan); }, "must be finite"));
  Conditions no_modulus;
  no_modulus.fluid_bulk_modulus = 0.0;
  BOOST_TEST(refused([&] { stored_energy(no_modulus, 1.0, litre, 0.0); }, "bulk modulus"));
}

BOOST_AUTO_TEST_SUITE_END()
