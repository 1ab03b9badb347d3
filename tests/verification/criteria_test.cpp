// SPDX-License-Identifier: GPL-3.0-or-later
// Failure criteria at a point: values of references E, pure states, turned axes.
#include <boost/test/unit_test.hpp>
#include <limits>

#include "materials/elasticity/frame.h"
#include "materials/failure/failure.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

const Tolerance exact = fraction(1e-6, "closed form; digits of the target");

double multiplier(FailureMode mode, const LayeredStrength& strength, const Vector6d& stress) {
  return load_multiplier(mode, strength, Vector6d::Zero(), stress)
      .value_or(std::numeric_limits<double>::infinity());
}

Vector6d stress_of(double s11, double s22, double s33, double s23, double s13, double s12) {
  Vector6d stress;
  stress << s11, s22, s33, s23, s13, s12;
  return stress;
}

/// Q s Q^t, as matrices.
Vector6d turned_by(const Eigen::Matrix3d& Q, const Vector6d& s) {
  Eigen::Matrix3d m;
  m << s[0], s[5], s[4], s[5], s[1], s[3], s[4], s[3], s[2];
  m = Q * m * Q.transpose();
  return stress_of(m(0, 0), m(1, 1), m(2, 2), m(1, 2), m(0, 2), m(0, 1));
}

BOOST_AUTO_TEST_SUITE(criteria)

BOOST_AUTO_TEST_CASE(criteria_give_the_reference_multipliers) {
  const LayeredStrength plies{60, 70, 30, 60, 25};
  const LayeredStrength weak_bond{60, 70, 15, 60, 15};

  check({Chapter::criteria, "E Tsai–Wu",
         "Xt 60 Xc 70, Zt 30 Zc 60, S 25 under (σ1, σ3, τ13) = (20, 10, 8): load multiplier",
         "Tsai and Wu, F13 = −½√(F11 F33); exact", 1.834036, exact},
        multiplier(FailureMode::tsai_wu, plies, stress_of(20, 0, 10, 0, 8, 0)));
  check({Chapter::criteria, "E between layers",
         "Zt = Sz = 15 under (σ3, τ13, τ23) = (4, 3, 5): load multiplier",
         "Brewer and Lagace, J. Compos. Mater. 22 (1988); exact", 2.121320, exact},
        multiplier(FailureMode::interlayer, weak_bond, stress_of(0, 0, 4, 5, 3, 0)));
}

BOOST_AUTO_TEST_CASE(in_the_layer_the_principal_stresses_count_whatever_the_axes) {
  // Mohr's circle of (20, 10, 12): 15 +- sqrt(5^2 + 12^2) = 28 and 2.
  const LayeredStrength strength{60, 70, 30, 55, 25};
  const auto row = [&](const std::string& name, const std::string& what, FailureMode mode,
                       const Vector6d& stress, double target) {
    check({Chapter::criteria, "E in the layer " + name, "Xt 60 Xc 70 S 25 under " + what,
           "exact: Mohr's circle", target, exact},
          multiplier(mode, strength, stress));
  };
  row("tension", "(σ1, σ2, τ12) = (20, 10, 12): 60 / 28", FailureMode::in_layer_tension,
      stress_of(20, 10, 0, 0, 0, 12), 2.142857);
  row("tension and shear", "the same with (τ23, τ13) = (6, 8): 1 / √((28/60)² + (10/25)²)",
      FailureMode::in_layer_tension, stress_of(20, 10, 0, 6, 8, 12), 1.626978);
  row("compression", "(−20, −10, 12): 70 / 28", FailureMode::in_layer_compression,
      stress_of(-20, -10, 0, 0, 0, 12), 2.5);
  row("shear", "τ12 = 1, largest-stress criterion: 60", FailureMode::maximum_stress,
      stress_of(0, 0, 0, 0, 0, 1), 60);
}

BOOST_AUTO_TEST_CASE(isotropic_solids_yield_by_von_mises_and_crack_by_the_largest_principal) {
  const auto row = [](const std::string& name, const std::string& what, const std::string& source,
                      FailureMode mode, const Strength& strength, const Vector6d& stress,
                      double target) {
    check({Chapter::criteria, "E " + name, what, source, target, exact},
          load_multiplier(mode, strength, Vector6d::Zero(), stress)
              .value_or(std::numeric_limits<double>::infinity()));
  };
  row("von Mises shear", "yield 240 under τ23 = 1: 240 / √3", "exact: von Mises",
      FailureMode::yielding, DuctileStrength{240}, stress_of(0, 0, 0, 1, 0, 0), 138.564065);
  row("von Mises biaxial", "yield 240 under (σ1, σ3, τ12) = (8, 3, 5): 240 / √(49 + 75)",
      "exact: von Mises", FailureMode::yielding, DuctileStrength{240}, stress_of(8, 0, 3, 0, 0, 5),
      21.552636);
  row("largest principal", "tensile 60 under (σ1, σ3, τ13) = (20, 10, 12): 60 / 28",
      "exact: Mohr's circle", FailureMode::brittle_tension, BrittleStrength{60},
      stress_of(20, 0, 10, 0, 12, 0), 2.142857);
}

BOOST_AUTO_TEST_CASE(pure_states_return_the_strength_they_are_named_after) {
  const LayeredStrength strength{60, 70, 30, 55, 25};
  const auto row = [&](const std::string& name, FailureMode mode, const Vector6d& stress,
                       double target) {
    check({Chapter::criteria, "E pure " + name, "unit " + name + ": load multiplier",
           "exact: definition of the strength", target, fraction(1e-12, "definition")},
          multiplier(mode, strength, stress));
  };
  row("tension along the layer", FailureMode::in_layer_tension, stress_of(1, 0, 0, 0, 0, 0), 60);
  row("tension across, in the layer", FailureMode::in_layer_tension, stress_of(0, 1, 0, 0, 0, 0),
      60);
  row("tension along the build", FailureMode::interlayer, stress_of(0, 0, 1, 0, 0, 0), 30);
  row("shear between layers", FailureMode::interlayer, stress_of(0, 0, 0, 0, 1, 0), 25);
  row("compression in the layer", FailureMode::in_layer_compression, stress_of(0, -1, 0, 0, 0, 0),
      70);
  row("compression along the build", FailureMode::build_compression, stress_of(0, 0, -1, 0, 0, 0),
      55);
  row("tension along the layer, Tsai–Wu", FailureMode::tsai_wu, stress_of(1, 0, 0, 0, 0, 0), 60);
  row("compression in the layer, Tsai–Wu", FailureMode::tsai_wu, stress_of(0, -1, 0, 0, 0, 0), 70);
  row("tension along the build, Tsai–Wu", FailureMode::tsai_wu, stress_of(0, 0, 1, 0, 0, 0), 30);
  row("compression along the build, Tsai–Wu", FailureMode::tsai_wu, stress_of(0, 0, -1, 0, 0, 0),
      55);
  row("shear between layers, Tsai–Wu", FailureMode::tsai_wu, stress_of(0, 0, 0, 1, 0, 0), 25);
}

BOOST_AUTO_TEST_CASE(turning_axes_and_stress_together_changes_no_multiplier) {
  const LayeredStrength strength{60, 70, 30, 60, 25};
  const Vector6d stress = stress_of(20, -5, 10, 3, 8, 4);  // material axes
  const Frame frame = skew_frame();

  const Vector6d turned = stress_in_material_axes(turned_by(frame, stress), frame);

  for (FailureMode mode :
       {FailureMode::interlayer, FailureMode::in_layer_tension, FailureMode::in_layer_compression,
        FailureMode::tsai_wu, FailureMode::maximum_stress})
    check({Chapter::criteria, "E turned " + std::string(name_of(mode)),
           "material axes and stress turned together: load multiplier over that of the unturned",
           "exact: invariance", 1.0, fraction(1e-12, "round-off")},
          multiplier(mode, strength, turned) / multiplier(mode, strength, stress));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
