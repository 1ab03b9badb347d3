// SPDX-License-Identifier: GPL-3.0-or-later
#include <boost/test/unit_test.hpp>
#include <limits>
#include <stdexcept>

#include "cases/joint/bearing.h"
#include "cases/joint/clamped_parts.h"
#include "cases/joint/load_factor.h"
#include "cases/joint/screw_compliance.h"
#include "cases/joint/screw_strength.h"
#include "cases/joint/screw_yield.h"

using namespace crossgrain;
using boost::test_tools::tolerance;

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
const ScrewSize& m5() { return *find_screw_size("M5"); }

}  // namespace

BOOST_AUTO_TEST_SUITE(screw_joint)

BOOST_AUTO_TEST_CASE(a_washer_fits_its_screw_and_spans_the_hole) {
  for (const ScrewSize& size : screw_sizes()) {
    BOOST_TEST_CONTEXT(size.name) {
      BOOST_TEST(size.washer_hole > size.diameter);
      BOOST_TEST(size.washer_diameter > size.head_diameter);
      BOOST_TEST(size.head_diameter > size.clearance_hole);
      BOOST_TEST(size.clearance_hole > size.diameter);
      BOOST_TEST(washer_spread(size) <= size.washer_diameter);
      BOOST_TEST(washer_spread(size) > size.head_diameter);
    }
  }
}

BOOST_AUTO_TEST_CASE(an_unknown_class_names_the_known_ones) {
  BOOST_CHECK_EXCEPTION(screw_class("8.9"), std::invalid_argument, [](const auto& problem) {
    const std::string text = problem.what();
    return text.find("'8.9'") != std::string::npos && text.find("10.9, 12.9") != std::string::npos;
  });
  BOOST_CHECK_THROW(given_screw_strength(nan), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(a_screw_without_a_proof_load_is_held_to_its_yield) {
  BOOST_TEST(proof_load(screw_class("A2-70"), m5()) == 450.0 * 14.2, tolerance(1e-12));
  BOOST_TEST(proof_load(given_screw_strength(500.0), m5()) == 500.0 * 14.2, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_pull_alone_stresses_the_stress_area_and_torsion_adds) {
  BOOST_TEST(screw_stress(1420.0, 0.0, m5()) == 100.0, tolerance(1e-12));
  // W = pi / 12 * 4.2493^3 = 20.087 mm^3 by hand; sqrt(3) * 1000 / 20.087.
  BOOST_TEST(screw_stress(0.0, 1000.0, m5()) == 86.227, tolerance(1e-3));
  BOOST_TEST(screw_stress(1420.0, 1000.0, m5()) == 132.04, tolerance(1e-3));
}

BOOST_AUTO_TEST_CASE(a_plain_shank_is_stiffer_than_a_threaded_one) {
  const ScrewShank threaded{20.0, 0.0, 206000.0}, plain{20.0, 20.0, 206000.0};

  // (1 / A3 - 1 / A) l / E by hand: A3 = pi/4 4.0185^2 = 12.683, A = 19.635.
  BOOST_TEST(screw_compliance(threaded, m5()) - screw_compliance(plain, m5()) == 2.7103e-6,
             tolerance(1e-3));
  BOOST_CHECK_THROW(screw_compliance({20.0, 21.0, 206000.0}, m5()), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(a_long_shank_yields_sideways_as_a_beam_and_a_short_one_by_shear) {
  // Bending alone: 3 E I / l^3 with I = pi/64 4.0185^4 = 12.800 mm^4.
  const LateralStiffness long_one = lateral_stiffness({200.0, 0.0, 206000.0}, m5());
  BOOST_TEST(long_one.free_head == 3.0 * 206000.0 * 12.8 / 8e6, tolerance(2e-3));
  BOOST_TEST(long_one.held_head / long_one.free_head == 4.0, tolerance(5e-3));

  const LateralStiffness short_one = lateral_stiffness({0.1, 0.0, 206000.0}, m5());
  BOOST_TEST(short_one.free_head == 0.9 * 206000.0 / 2.6 * 12.683 / 0.1, tolerance(2e-3));
}

BOOST_AUTO_TEST_CASE(the_cone_ends_where_the_material_does) {
  ClampedParts parts{10.0, 8.03, 5.5, 30.0, 2000.0};
  for (const Clamping clamping : {Clamping::through, Clamping::tapped}) {
    // No more than a head wide: a tube. E A / l.
    parts.outer = 8.03;
    const double tube = 4.0 * 10.0 / (2000.0 * 3.14159265 * (8.03 * 8.03 - 5.5 * 5.5));
    BOOST_TEST(clamped_compliance(clamping, parts) == tube, tolerance(1e-7));
    // A little wider: no jump.
    parts.outer = 8.03 + 1e-6;
    BOOST_TEST(clamped_compliance(clamping, parts) == tube, tolerance(1e-5));
    // At the cone's limit: no jump either.
    double low = 8.1, high = 40.0;
    for (int step = 0; step < 60; ++step) {
      parts.outer = 0.5 * (low + high);
      (parts.outer < cone_limit_diameter(clamping, parts) ? low : high) = parts.outer;
    }
    parts.outer = low * (1.0 - 1e-7);
    const double below = clamped_compliance(clamping, parts);
    parts.outer = high * (1.0 + 1e-7);
    BOOST_TEST(clamped_compliance(clamping, parts) == below, tolerance(1e-5));
  }
}

BOOST_AUTO_TEST_CASE(the_screw_carries_the_load_itself_once_the_parts_are_asunder) {
  const double phi = 0.6;
  const double opens = opening_load(1000.0, phi);
  BOOST_TEST(opens == 2500.0, tolerance(1e-12));

  BOOST_TEST(screw_force(1000.0, 500.0, phi) == 1300.0, tolerance(1e-12));
  BOOST_TEST(screw_force(1000.0, opens, phi) == opens, tolerance(1e-12));
  BOOST_TEST(screw_force(1000.0, 3000.0, phi) == 3000.0, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_soft_gasket_in_series_leaves_the_screw_with_all_of_the_load) {
  const JointCompliance bare{5.75e-6, 9.883e-5, 0.0}, soft{5.75e-6, 9.883e-5, 1e-3};

  BOOST_TEST(load_factor(soft, 1.0) > 0.99);
  BOOST_TEST(load_factor(bare, 0.5) == 0.5 * load_factor(bare, 1.0), tolerance(1e-12));
  BOOST_CHECK_THROW(load_factor(bare, 1.1), std::invalid_argument);
  BOOST_CHECK_THROW(load_factor({nan, 1e-5, 0.0}, 1.0), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(a_head_presses_its_ring) {
  // pi/4 (10^2 - 6^2) = 50.265 mm^2.
  BOOST_TEST(bearing_pressure(1000.0, 10.0, 6.0) == 19.894, tolerance(1e-4));
  BOOST_TEST(bearing_limit(40.0, BearingShare{}.long_term) == 10.0, tolerance(1e-12));
  BOOST_CHECK_THROW(bearing_pressure(1000.0, 6.0, 6.0), std::invalid_argument);
  BOOST_CHECK_THROW(bearing_limit(40.0, 25.0), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
