// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/elasticity/stiffness_polynomial.h"

#include <boost/test/unit_test.hpp>

#include "materials/elasticity/frame.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"

namespace crossgrain::testing {
namespace {

// Indicative, from memory: short-carbon nylon; and a solid ten times as stiff along its layers as
// across, to tell every constant from every other.
const std::array<OrthotropicConstants, 3> solids{
    orthotropic({.E_layer = 8000, .E_build = 3500, .nu_12 = 0.35, .nu_13 = 0.39, .G_build = 1300}),
    orthotropic({.E_layer = 20000, .E_build = 2000, .nu_12 = 0.35, .nu_13 = 0.35, .G_build = 500}),
    isotropic(2000.0, 0.4)};

// Axes, diagonals and directions along none of them; lengths that are not one.
const std::array<Eigen::Vector3d, 6> directions{
    {{0, 0, 1}, {1, 0, 0}, {0, -3, 0}, {1, 1, 1}, {0.3, -0.5, 0.8}, {-2.0, 7.0, 0.01}}};

}  // namespace

BOOST_AUTO_TEST_SUITE(stiffness_polynomial_test)

// The rotation of a fourth-order tensor is the definition; round-off of some dozen products.
BOOST_AUTO_TEST_CASE(the_polynomial_is_the_rotated_stiffness) {
  for (const auto& solid : solids) {
    const auto polynomial = stiffness_polynomial(solid);
    for (const auto& n : directions) {
      const Matrix6d rotated = rotate_stiffness(stiffness(solid), frame_along(n));

      BOOST_TEST(near(polynomial.along(n), rotated, 1e-14));
    }
  }
}

BOOST_AUTO_TEST_CASE(both_ends_of_a_direction_give_the_same_monomials) {
  for (const auto& n : directions)
    BOOST_TEST(near(direction_monomials(-2.0 * n), direction_monomials(n), 1e-15));
}

BOOST_AUTO_TEST_CASE(a_solid_with_a_bead_direction_is_refused) {
  auto beaded = solids[0];
  beaded.G_23 = 900.0;
  BOOST_TEST(refused([&] { stiffness_polynomial(beaded); }, "G_23 = 900"));
}

BOOST_AUTO_TEST_CASE(a_direction_without_length_is_refused) {
  BOOST_TEST(refused([] { direction_monomials({0, 0, 0}); }, "no usable length"));
  BOOST_TEST(refused([] { direction_monomials({0, NAN, 1}); }, "no usable length"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
