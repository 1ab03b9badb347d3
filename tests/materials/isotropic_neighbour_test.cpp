// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/elasticity/isotropic_neighbour.h"

#include <boost/test/unit_test.hpp>

namespace crossgrain::testing {

BOOST_AUTO_TEST_SUITE(isotropic_neighbour_test)

BOOST_AUTO_TEST_CASE(an_isotropic_solid_is_its_own_neighbour) {
  const auto neighbour = isotropic_neighbour(isotropic(2000.0, 0.3));

  BOOST_TEST(neighbour.constants.E_1 == 2000.0, boost::test_tools::tolerance(1e-3));
  BOOST_TEST(neighbour.constants.nu_12 == 0.3, boost::test_tools::tolerance(1e-3));
  BOOST_TEST(neighbour.condition() == 1.0, boost::test_tools::tolerance(1e-3));
}

// Ratios of 2.8 and 15 were found for these solids by a prototype that shares no code with this, to
// two digits; nu_31 = 0.17 and 0.035.
BOOST_AUTO_TEST_CASE(the_ratio_of_printed_solids_is_known) {
  const auto nylon = orthotropic({.E_layer = 8000,
                                  .E_build = 3500,
                                  .nu_12 = 0.35,
                                  .nu_13 = 0.17 * 8000 / 3500,
                                  .G_build = 1300});
  const auto extreme = orthotropic(
      {.E_layer = 20000, .E_build = 2000, .nu_12 = 0.35, .nu_13 = 0.35, .G_build = 500});

  BOOST_TEST(isotropic_neighbour(nylon).condition() == 2.8, boost::test_tools::tolerance(0.02));
  BOOST_TEST(isotropic_neighbour(extreme).condition() == 15.0, boost::test_tools::tolerance(0.04));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
