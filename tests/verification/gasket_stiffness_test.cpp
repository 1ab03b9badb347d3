// SPDX-License-Identifier: GPL-3.0-or-later
// Moduli of gaskets by hardness and form.
#include "cases/joint/gasket_stiffness.h"

#include <boost/test/unit_test.hpp>

#include "cases/joint/rubber_modulus.h"
#include "tests/verification/check_table.h"

namespace crossgrain::verification {
namespace {

BOOST_AUTO_TEST_SUITE(gasket_stiffness)

BOOST_AUTO_TEST_CASE(hardness_tells_the_modulus_that_is_measured) {
  struct Row {
    double hardness, modulus;
  };
  const Row measured[] = {{40, 1.50}, {50, 2.20}, {60, 4.45}, {70, 7.35}};
  for (const Row& row : measured) {
    const std::string hardness = std::to_string(static_cast<int>(row.hardness));
    check({Chapter::gaskets, "C7 hardness " + hardness,
           "natural rubber of " + hardness + " IRHD: Young's modulus by its hardness",
           "Lindley, Engineering Design with Natural Rubber (from memory)", row.modulus,
           fraction(0.3, "the range that the rule claims")},
          modulus_by_hardness(row.hardness).value);
  }
  check({Chapter::gaskets, "C7 TPU 95A", "thermoplastic polyurethane of 95 Shore A: modulus",
         "data sheets say 25 to 70 MPa (from memory)", 42,
         within_factor(1.7, "42 is the geometric mean of 25 and 70")},
        modulus_by_hardness(95.0).value);
}

BOOST_AUTO_TEST_CASE(held_faces_stiffen_by_shape) {
  const Tolerance exact = fraction(1e-3, "closed form; the bulk modulus set beyond reach");
  const double no_limit = 1e9;
  const auto row = [&](const std::string& name, const std::string& what, const GasketShape& shape,
                       double target) {
    check({Chapter::gaskets, "C7 " + name, what, "Gent and Lindley, Proc. IMechE 173 (1959)",
           target, exact},
          apparent_modulus(shape, 2.0, no_limit));
  };
  row("disc", "bonded disc d 20, t 2.5, E 2: 2 (1 + 2·2²)",
      {GasketForm::disc, GasketFaces::held, 20.0, 2.5}, 18.0);
  row("strip", "bonded ring or strip w 12, t 2, E 2: (4/3) 2 (1 + 3²)",
      {GasketForm::strip, GasketFaces::held, 12.0, 2.0}, 26.66667);
  row("slipping", "the same between slipping faces: E",
      {GasketForm::strip, GasketFaces::slipping, 12.0, 2.0}, 2.0);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
