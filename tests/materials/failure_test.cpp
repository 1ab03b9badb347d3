// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/failure/failure.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

#include "materials/elasticity/frame.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using crossgrain::testing::refused;
namespace tt = boost::test_tools;

namespace {

const Vector6d none = Vector6d::Zero();
const LayeredStrength layered{.Xt = 60, .Xc = 70, .Zt = 30, .Zc = 60, .Sz = 25};
constexpr FailureMode layered_modes[] = {FailureMode::interlayer,
                                         FailureMode::in_layer_tension,
                                         FailureMode::in_layer_compression,
                                         FailureMode::build_compression,
                                         FailureMode::tsai_wu,
                                         FailureMode::maximum_stress};

double factor(FailureMode mode, const Strength& strength, const Vector6d& stress) {
  return load_multiplier(mode, strength, none, stress).value();
}

Vector6d random_stress(std::mt19937& generator) {
  std::normal_distribution<double> normal(0.0, 20.0);
  return Vector6d::NullaryExpr([&] { return normal(generator); });
}

/// Every mode with a strength that it fits.
std::vector<std::pair<FailureMode, Strength>> every_mode() {
  std::vector<std::pair<FailureMode, Strength>> pairs;
  for (const FailureMode mode : layered_modes) pairs.emplace_back(mode, layered);
  pairs.emplace_back(FailureMode::yielding, DuctileStrength{45});
  pairs.emplace_back(FailureMode::brittle_tension, BrittleStrength{35});
  return pairs;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(failure)

// Random directions, and those in which a limit is nearest: where principal stress is all of the
// length times root 2, or von Mises stress root 3 times.
BOOST_AUTO_TEST_CASE(stress_below_the_safe_length_is_inside_every_limit) {
  std::mt19937 generator(8);
  for (const auto& [mode, strength] : every_mode()) {
    BOOST_TEST_CONTEXT(name_of(mode)) {
      const double safe = safe_length(mode, strength);
      BOOST_TEST(safe >= 0.0);
      BOOST_TEST((safe > 0.0) == (mode != FailureMode::tsai_wu));
      if (safe == 0.0) continue;
      std::vector<Vector6d> directions{Vector6d{{1, 1, 0, 0, 0, 1}},
                                       Vector6d{{-1, -1, 0, 0, 0, 1}}};
      for (int k = 0; k < 6; ++k) {
        directions.push_back(Vector6d::Unit(k));
        directions.push_back(-Vector6d::Unit(k));
      }
      for (int i = 0; i < 1000; ++i) directions.push_back(random_stress(generator));
      double greatest = 0.0;
      for (const Vector6d& direction : directions)
        greatest = std::max(greatest,
                            failure_index(mode, strength, 0.999 * safe * direction.normalized()));
      BOOST_TEST(greatest < 1.0);
      // Not so short that nothing is gained.
      BOOST_TEST(greatest > 0.3);
    }
  }
}

// Exact values of the published forms: Tsai & Wu, J. Compos. Mater. 5 (1971), and Brewer & Lagace,
// J. Compos. Mater. 22 (1988), recomputed independently.
BOOST_AUTO_TEST_CASE(published_criteria_give_their_exact_multipliers) {
  const Vector6d in_plane{{20, 0, 10, 0, 8, 0}};
  const LayeredStrength weak{.Xt = 60, .Xc = 60, .Zt = 15, .Zc = 60, .Sz = 15};
  const Vector6d between{{0, 0, 4, 5, 3, 0}};

  // Seven digits are quoted.
  BOOST_TEST(factor(FailureMode::tsai_wu, layered, in_plane) == 1.834036, tt::tolerance(3e-7));
  BOOST_TEST(factor(FailureMode::interlayer, weak, between) == 2.121320, tt::tolerance(3e-7));
}

BOOST_AUTO_TEST_CASE(pull_along_each_axis_returns_that_strength) {
  struct Pull {
    int component;
    double sign;
    double strength;
    std::vector<FailureMode> modes;
  };
  using enum FailureMode;
  const Pull pulls[] = {
      {0, 1, 60, {in_layer_tension, tsai_wu, maximum_stress}},
      {1, 1, 60, {in_layer_tension, tsai_wu, maximum_stress}},
      {2, 1, 30, {interlayer, tsai_wu, maximum_stress}},
      {0, -1, 70, {in_layer_compression, tsai_wu, maximum_stress}},
      {1, -1, 70, {in_layer_compression, tsai_wu, maximum_stress}},
      {2, -1, 60, {build_compression, tsai_wu, maximum_stress}},
      {3, 1, 25, {interlayer, in_layer_tension, tsai_wu, maximum_stress}},
      {4, -1, 25, {interlayer, in_layer_tension, tsai_wu, maximum_stress}},
      {5, 1, 60, {in_layer_tension, maximum_stress}},
  };

  for (const Pull& pull : pulls)
    for (const FailureMode mode : pull.modes) {
      BOOST_TEST_CONTEXT(name_of(mode) << ", component " << pull.component)
      BOOST_TEST(factor(mode, layered, pull.sign * Vector6d::Unit(pull.component)) == pull.strength,
                 tt::tolerance(1e-14));
    }
}

// Off-axis bars of X 60, Y 30, S 25: Jones, Mechanics of Composite Materials, 2nd ed., section 2.9
// (from memory); the second row takes across and shear together (Brewer & Lagace 1988).
BOOST_AUTO_TEST_CASE(bars_tilted_against_the_layers_have_the_published_strengths) {
  const double maximum_stress[] = {64.308, 57.735, 50.000, 40.000, 32.154};
  const double with_interlayer[] = {64.31, 52.03, 38.41, 32.88, 30.61};

  for (int i = 0; i < 5; ++i) {
    const double angle = 15.0 * (i + 1) * std::numbers::pi / 180.0;
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    const Vector6d pulled{{c * c, 0, s * s, 0, s * c, 0}};
    const double stress_limit = factor(FailureMode::maximum_stress, layered, pulled);
    const double layer_limit = factor(FailureMode::interlayer, layered, pulled);
    // Quoted to five and four digits.
    BOOST_TEST(stress_limit == maximum_stress[i], tt::tolerance(1e-5));
    BOOST_TEST(std::min(stress_limit, layer_limit) == with_interlayer[i], tt::tolerance(1.5e-4));
  }
}

// A slightly tilted bar must not come out stronger than the layer itself.
BOOST_AUTO_TEST_CASE(no_tilt_makes_a_bar_stronger_than_its_layer) {
  for (int degrees = 0; degrees <= 90; ++degrees) {
    const double angle = degrees * std::numbers::pi / 180.0;
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    const Vector6d pulled{{c * c, 0, s * s, 0, s * c, 0}};
    double least = std::numeric_limits<double>::infinity();
    for (const FailureMode mode : governing_modes(layered, Criterion::interactive))
      least = std::min(least, load_multiplier(mode, layered, none, pulled).value_or(least));
    BOOST_TEST(least <= 60.0 * (1.0 + 1e-14));
    if (degrees == 0) BOOST_TEST(least == 60.0, tt::tolerance(1e-14));
    if (degrees == 90) BOOST_TEST(least == 30.0, tt::tolerance(1e-14));
  }
}

BOOST_AUTO_TEST_CASE(von_mises_and_principal_stress_match_their_definitions) {
  const Vector6d shear{{0, 0, 0, 0, 0, 10}};
  const Vector6d mixed{{10, -4, 3, 2, -1, 5}};

  BOOST_TEST(factor(FailureMode::yielding, DuctileStrength{45}, shear) == 45 / std::sqrt(300.0),
             tt::tolerance(1e-14));
  const double von_mises =
      std::sqrt(0.5 * (14.0 * 14 + 7 * 7 + 7 * 7) + 3.0 * (2.0 * 2 + 1 + 5.0 * 5));
  BOOST_TEST(failure_index(FailureMode::yielding, DuctileStrength{1}, mixed) == von_mises,
             tt::tolerance(1e-14));
  BOOST_TEST(factor(FailureMode::brittle_tension, BrittleStrength{35}, shear) == 3.5,
             tt::tolerance(1e-14));
  const Vector6d pressed_evenly{{-5, -5, -5, 0, 0, 0}};
  BOOST_TEST(!load_multiplier(FailureMode::yielding, DuctileStrength{45}, none, pressed_evenly));
  BOOST_TEST(
      !load_multiplier(FailureMode::brittle_tension, BrittleStrength{35}, none, pressed_evenly));
}

BOOST_AUTO_TEST_CASE(multiplier_takes_the_stress_just_to_the_limit) {
  std::mt19937 generator(7);
  for (const auto& [mode, strength] : every_mode()) {
    BOOST_TEST_CONTEXT(name_of(mode)) {
      int found = 0;
      for (int trial = 0; trial < 2000; ++trial) {
        const Vector6d held = 0.4 * random_stress(generator);
        const Vector6d scaling = random_stress(generator);
        const auto multiplier = load_multiplier(mode, strength, held, scaling);
        if (failure_index(mode, strength, held) >= 1.0) {
          BOOST_TEST(multiplier.value() == 0.0);
        } else if (multiplier) {
          ++found;
          const Vector6d there = held + *multiplier * scaling;
          // The index is a polynomial of degree two in entries that carry a few roundings.
          BOOST_TEST(failure_index(mode, strength, there) == 1.0, tt::tolerance(1e-11));
          BOOST_TEST(failure_index(mode, strength, held + 0.999 * *multiplier * scaling) < 1.0);
        } else {
          BOOST_TEST(failure_index(mode, strength, held + 1e6 * scaling) < 1.0);
        }
      }
      BOOST_TEST(found > 500);
    }
  }
}

BOOST_AUTO_TEST_CASE(stress_between_two_safe_states_is_safe) {
  std::mt19937 generator(11);
  std::uniform_real_distribution<double> uniform(0.0, 1.0);
  for (const auto& [mode, strength] : every_mode())
    for (int trial = 0; trial < 2000; ++trial) {
      const Vector6d a = random_stress(generator);
      const Vector6d b = random_stress(generator);
      const Vector6d on_a = load_multiplier(mode, strength, none, a).value_or(10.0) * a;
      const Vector6d on_b = load_multiplier(mode, strength, none, b).value_or(10.0) * b;
      const double t = uniform(generator);
      BOOST_TEST_CONTEXT(name_of(mode))
      // Both ends are on the limit to within rounding.
      BOOST_TEST(failure_index(mode, strength, t * on_a + (1 - t) * on_b) <= 1.0 + 1e-11);
    }
}

BOOST_AUTO_TEST_CASE(turning_the_axes_and_the_stress_together_changes_nothing) {
  std::mt19937 generator(13);
  const Eigen::Matrix3d turn(
      Eigen::AngleAxisd(0.7, Eigen::Vector3d(1, 2, 3).normalized()).toRotationMatrix());
  const Frame frame = frame_along(Eigen::Vector3d(3, -1, 2));
  for (const auto& [mode, strength] : every_mode())
    for (int trial = 0; trial < 50; ++trial) {
      const Vector6d stress = random_stress(generator);
      const Vector6d turned = stress_rotation(turn) * stress;
      const double before = failure_index(mode, strength, stress_in_material_axes(stress, frame));
      const double after =
          failure_index(mode, strength, stress_in_material_axes(turned, turn * frame));
      BOOST_TEST_CONTEXT(name_of(mode))
      // Compression against a limit may bring the index near zero; the scale is of order one.
      BOOST_TEST(after + 10.0 == before + 10.0, tt::tolerance(1e-13));
    }
}

BOOST_AUTO_TEST_CASE(direction_within_the_layer_does_not_matter) {
  std::mt19937 generator(17);
  const Frame about_build(Eigen::AngleAxisd(0.6, Eigen::Vector3d::UnitZ()).toRotationMatrix());
  for (const FailureMode mode : layered_modes)
    for (int trial = 0; trial < 50; ++trial) {
      const Vector6d stress = random_stress(generator);
      BOOST_TEST_CONTEXT(name_of(mode))
      BOOST_TEST(failure_index(mode, layered, stress_rotation(about_build) * stress) + 10.0 ==
                     failure_index(mode, layered, stress) + 10.0,
                 tt::tolerance(1e-13));
    }
}

BOOST_AUTO_TEST_CASE(tsai_wu_finds_no_limit_along_its_singular_direction) {
  const double along_build = std::sqrt(30.0 * 60.0) / std::sqrt(60.0 * 70.0);
  const Vector6d pressed = -5.0 * Vector6d{{1, 1, along_build, 0, 0, 0}};

  BOOST_TEST(!load_multiplier(FailureMode::tsai_wu, layered, none, pressed));
  BOOST_TEST(load_multiplier(FailureMode::tsai_wu, layered, none, -pressed).has_value());
}

BOOST_AUTO_TEST_CASE(held_stress_decides_when_nothing_scales) {
  const Vector6d past{{0, 0, 31, 0, 0, 0}};
  const Vector6d within{{0, 0, 29, 0, 0, 0}};

  BOOST_TEST(load_multiplier(FailureMode::interlayer, layered, past, none).value() == 0.0);
  BOOST_TEST(!load_multiplier(FailureMode::interlayer, layered, within, none));
  BOOST_TEST(!load_multiplier(FailureMode::in_layer_tension, layered, none, none));
  BOOST_TEST(!load_multiplier(FailureMode::tsai_wu, layered, none, none));
}

BOOST_AUTO_TEST_CASE(pressure_that_first_relieves_a_preload_crosses_on_the_far_side) {
  const Vector6d preload{{0, 0, -20, 3, 0, 0}};
  const Vector6d pressure{{0, 0, 10, 0, 0, 0}};
  const Vector6d relieving{{0, 0, 1, 0, 0, 0}};

  const double far_side = 30.0 * std::sqrt(1.0 - 9.0 / 625.0);
  BOOST_TEST(load_multiplier(FailureMode::interlayer, layered, preload, pressure).value() ==
                 (20.0 + far_side) / 10.0,
             tt::tolerance(1e-14));
  // Far outside the bracket at the start: the digits must survive.
  BOOST_TEST(load_multiplier(FailureMode::interlayer, layered,
                             1e6 * preload.cwiseProduct(Vector6d{{0, 0, 1, 1e-6, 0, 0}}), relieving)
                     .value() == 2e7 + far_side,
             tt::tolerance(1e-13));
}

BOOST_AUTO_TEST_CASE(small_tension_beside_large_compression_keeps_its_digits) {
  const Vector6d squeezed{{-1e6, 12, 0, 0, 0, 0}};

  BOOST_TEST(factor(FailureMode::in_layer_tension, layered, squeezed) == 5.0, tt::tolerance(1e-13));
}

BOOST_AUTO_TEST_CASE(held_stress_a_rounding_short_of_the_limit_leaves_next_to_nothing) {
  std::mt19937 generator(23);
  for (const auto& [mode, strength] : every_mode())
    for (int trial = 0; trial < 2000; ++trial) {
      const Vector6d stress = random_stress(generator);
      const auto limit = load_multiplier(mode, strength, none, stress);
      if (!limit) continue;
      const double short_by = 1e-16 * (trial % 8);
      const Vector6d held = *limit * (1.0 - short_by) * stress;
      BOOST_TEST_CONTEXT(name_of(mode))
      // A few roundings of the held stress itself, which where compression outweighs the judged
      // tension are large beside the margin.
      BOOST_TEST(load_multiplier(mode, strength, held, stress).value() <= 1e-10 * *limit);
    }
}

BOOST_AUTO_TEST_CASE(many_points_at_once_give_the_same_with_infinity_for_no_limit) {
  std::mt19937 generator(19);
  Eigen::Matrix<double, 6, Eigen::Dynamic> held(6, 40);
  Eigen::Matrix<double, 6, Eigen::Dynamic> scaling(6, 40);
  for (int i = 0; i < 40; ++i) {
    held.col(i) = 0.3 * random_stress(generator);
    scaling.col(i) = random_stress(generator);
  }
  for (const auto& [mode, strength] : every_mode()) {
    const Eigen::VectorXd all = load_multipliers(mode, strength, held, scaling);
    for (int i = 0; i < 40; ++i)
      BOOST_TEST(all[i] == load_multiplier(mode, strength, held.col(i), scaling.col(i))
                               .value_or(std::numeric_limits<double>::infinity()));
  }
}

BOOST_AUTO_TEST_CASE(what_cannot_be_judged_is_refused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const Vector6d broken{{0, nan, 0, 0, 0, 0}};
  LayeredStrength weak = layered;
  weak.Sz = nan;

  BOOST_TEST(refused([&] { load_multiplier(FailureMode::interlayer, layered, broken, none); },
                     "stress is not finite"));
  BOOST_TEST(refused([&] { load_multiplier(FailureMode::interlayer, layered, none, broken); },
                     "stress is not finite"));
  BOOST_TEST(refused([&] { failure_index(FailureMode::interlayer, weak, none); },
                     "strength Sz must be positive and finite"));
  BOOST_TEST(refused([&] { failure_index(FailureMode::yielding, layered, none); },
                     "yielding does not fit a layered strength"));
  BOOST_TEST(refused([&] { failure_index(FailureMode::interlayer, DuctileStrength{5}, none); },
                     "does not fit a ductile isotropic strength"));
}

BOOST_AUTO_TEST_SUITE_END()
