// SPDX-License-Identifier: GPL-3.0-or-later
// A gasket between equal screws: beam on an elastic foundation.
#include "cases/joint/flange_bow.h"

#include <boost/test/unit_test.hpp>
#include <numbers>

#include "tests/verification/check_table.h"

namespace crossgrain::verification {
namespace {

const char* const hetenyi = "Hetenyi, Beams on Elastic Foundation (1946), equal loads; exact";

BOOST_AUTO_TEST_SUITE(flange_bow)

BOOST_AUTO_TEST_CASE(a_gasket_is_pressed_less_between_the_screws) {
  struct Row {
    const char* name;
    double bow, least_over_greatest;
  };
  const Row rows[] = {{"1", 1.0, 0.990},
                      {"1.5", 1.5, 0.9493},
                      {"2", 2.0, 0.852},
                      {"π", std::numbers::pi, 0.4345},
                      {"4", 4.0, 0.144}};
  for (const Row& row : rows) {
    const BowedContact contact = bowed_contact(row.bow, 0.0);
    check({Chapter::gaskets, std::string("B11 φ = ") + row.name,
           std::string("contact between screws over that at a screw, φ = ") + row.name, hetenyi,
           row.least_over_greatest, fraction(3e-3, "three digits of the target")},
          contact.between / contact.at_screw);
  }
}

BOOST_AUTO_TEST_CASE(what_the_fluid_takes_off_is_missed_between_the_screws) {
  check({Chapter::gaskets, "B11 relieved",
         "φ = π, the fluid takes off 60 % of the mean: what stays between the screws, of the mean",
         hetenyi, 0.026, absolute(5e-4, "two digits of the target")},
        bowed_contact(std::numbers::pi, 0.6).between);
}

BOOST_AUTO_TEST_CASE(screws_stand_as_far_apart_as_is_usual) {
  check({Chapter::gaskets, "C7 pitch", "screws of 8, flange 12 thick, m 0.5: greatest pitch",
         "pressure vessel practice, 2 d + 6 t / (m + 0.5)", 88, fraction(1e-9, "by hand")},
        usual_pitch_limit(8.0, 12.0, 0.5));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
