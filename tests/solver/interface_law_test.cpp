// SPDX-License-Identifier: GPL-3.0-or-later
// What faces, gaskets and screws answer: by hand, and slopes against differences.
#include "solver/interface/interface_law.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "tests/support/near.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

const Eigen::Vector3d up = Eigen::Vector3d::UnitZ();

/// A point whose second face has come down by `squeeze` and moved sideways.
PointMotion squeezed(double squeeze, double sideways = 0.0) {
  return {-squeeze * up + sideways * Eigen::Vector3d::UnitX(), up, 0.0, 1000.0,
          Eigen::Vector3d::Zero()};
}

double pressure(const InterfaceLaw& law, double squeeze) {
  return -respond(law, squeezed(squeeze)).traction.dot(up);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(interface_law)

BOOST_AUTO_TEST_CASE(faces_press_and_never_pull) {
  BOOST_TEST(pressure(Unilateral{}, 0.002) == 2.0, tolerance(1e-12));
  BOOST_TEST(pressure(Unilateral{}, -0.002) == 0.0);
  BOOST_TEST((respond(Unilateral{}, squeezed(-0.002)).branch == PointBranch::open));
  BOOST_TEST(pressure(Tied{}, -0.002) == -2.0, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_clearance_must_be_closed_first) {
  auto motion = squeezed(0.003);
  motion.clearance = 0.002;

  BOOST_TEST(-respond(Unilateral{}, motion).traction.z() == 1.0, tolerance(1e-9));
  motion.clearance = -0.002;
  BOOST_TEST(-respond(Unilateral{}, motion).traction.z() == 5.0, tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(a_gasket_is_a_bedding_of_its_modulus_over_its_thickness) {
  const Bedding soft{.modulus = 6.0, .thickness = 2.0};

  BOOST_TEST(pressure(soft, 0.1) == 0.3, tolerance(1e-12));
  BOOST_TEST(pressure(soft, -0.1) == 0.0);
}

BOOST_AUTO_TEST_CASE(a_gasket_stiffens_as_an_ideal_rubber) {
  const Bedding rubber{.modulus = 6.0, .thickness = 2.0, .stiffens = true};

  // Halved: (6 / 3) (4 - 1/2).
  BOOST_TEST(pressure(rubber, 1.0) == 7.0, tolerance(1e-12));
  BOOST_TEST(pressure(rubber, 1e-6) == 3e-6, tolerance(1e-5));
}

BOOST_AUTO_TEST_CASE(a_stop_takes_what_is_more) {
  const Bedding stopped{.modulus = 6.0, .thickness = 2.0, .stop_squeeze = 0.4};

  BOOST_TEST(pressure(stopped, 0.401) == 1.203 + 1.0, tolerance(1e-9));
  BOOST_TEST((respond(stopped, squeezed(0.401)).branch == PointBranch::stopped));
}

BOOST_AUTO_TEST_CASE(a_gasket_that_sticks_holds_in_shear) {
  const Bedding stuck{.modulus = 6.0, .thickness = 2.0, .shear_modulus = 1.0};

  BOOST_TEST(respond(stuck, squeezed(0.1, 0.2)).traction.x() == 0.1, tolerance(1e-12));
  BOOST_TEST(respond(Bedding{6.0, 2.0}, squeezed(0.1, 0.2)).traction.x() == 0.0);
}

BOOST_AUTO_TEST_CASE(every_tangent_is_the_slope_of_its_traction) {
  const Bedding rubber{6.0, 2.0, true, 1.0, 0.5};
  const double step = 1e-6;
  for (const InterfaceLaw& law :
       {InterfaceLaw{Tied{}}, InterfaceLaw{Unilateral{}}, InterfaceLaw{rubber}})
    for (double squeeze : {-0.3, 0.2, 0.7, 1.95}) {
      const auto motion = squeezed(squeeze, 0.1);
      Eigen::Matrix3d slope;
      for (int i = 0; i < 3; ++i) {
        auto ahead = motion, behind = motion;
        ahead.jump[i] += step;
        behind.jump[i] -= step;
        slope.col(i) =
            (respond(law, ahead).traction - respond(law, behind).traction) / (2.0 * step);
      }
      BOOST_TEST((respond(law, motion).tangent - slope).norm() <= 1e-6 * (slope.norm() + 1.0));
    }
}

BOOST_AUTO_TEST_CASE(gaskets_that_cannot_be_are_refused) {
  BOOST_TEST(refused([] { require_sound(Bedding{NAN, 2.0}); }, "modulus is nan"));
  BOOST_TEST(refused([] { require_sound(Bedding{6.0, 0.0}); }, "thickness is 0 mm"));
  BOOST_TEST(refused(
      [] { require_sound(Bedding{.modulus = 6.0, .thickness = 2.0, .stop_squeeze = -1.0}); },
      "squeeze of -1"));
}

BOOST_AUTO_TEST_SUITE_END()
