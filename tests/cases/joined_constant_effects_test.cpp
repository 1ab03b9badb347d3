// SPDX-License-Identifier: GPL-3.0-or-later
// What constants do to joined bodies: bars under a screw, worked out by hand.
// Source: a preloaded joint is a spring of the screw beside one of the members, which are springs
// in series; of a load on it the members take k_m / (k_m + k_s) (Shigley's Mechanical Engineering
// Design, 10th ed., sections 8-4, 8-5 and 8-7, from memory).
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "cases/judgement/confirmed_effects.h"
#include "cases/judgement/factor_range.h"
#include "tests/cases/screwed_bars.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

// MPa on a section; the screw keeps a third of its pull.
constexpr double preload = 10.0, push = 12.0;
constexpr double E_lower = 1500.0, E_upper = 2500.0;
// What a solved state's faces may go into each other, as a share of what an element gives, is a
// hundredth, and an element a sixteenth of what gives.
constexpr double touching = 1e-3;
// Faces ten times as stiff as while a state is solved still give a fiftieth of an element.
constexpr double frozen = 3e-3;

LayeredConstants weak_across(const Ranged& E_build, double Zc) {
  LayeredConstants constants = known();
  constants.E_build = E_build;
  constants.Zc = exactly(Zc);
  return constants;
}

Ranged within(double value, double share) {
  return {value, value * (1.0 - share), value * (1.0 + share)};
}

/// Stress that the push adds to the preload's where the bars are pressed together [MPa].
/// @param softer  what a gasket between them gives [mm/N].
double added(double lower, double upper, double softer = 0.0) {
  const double give =
      ScrewedBars::length / ScrewedBars::area * (1.0 / lower + 1.0 / upper) + softer;
  return push / (1.0 + give * ScrewedBars::screw_stiffness);
}

const ConstantEffect& modulus_of(const std::vector<ConstantEffect>& effects,
                                 const std::string& card) {
  const auto found = std::ranges::find_if(effects, [&](const ConstantEffect& effect) {
    return effect.constant.name == "E_build" && effect.card == card;
  });
  BOOST_TEST_REQUIRE((found != effects.end()), card);
  return *found;
}

double change(const ConstantEffect& effect) { return *effect.at_high - *effect.at_low; }

}  // namespace

BOOST_AUTO_TEST_SUITE(constant_effects_on_joined_bodies)

BOOST_AUTO_TEST_CASE(members_take_of_a_load_by_the_stiffness_that_each_has) {
  constexpr double crushing = 40.0, share = 5e-3;
  ScrewedBars bars(weak_across(within(E_lower, share), crushing),
                   weak_across(within(E_upper, share), 2.0 * crushing), preload, push);
  const auto by_hand = [](double lower, double upper) {
    return crushing / (preload + added(lower, upper));
  };
  BOOST_TEST(*bars.result.factor.value == by_hand(E_lower, E_upper), tolerance(touching));

  const auto effects = bars.effects();

  const double of_lower =
      by_hand(E_lower * (1.0 + share), E_upper) - by_hand(E_lower * (1.0 - share), E_upper);
  const double of_upper =
      by_hand(E_lower, E_upper * (1.0 + share)) - by_hand(E_lower, E_upper * (1.0 - share));
  BOOST_TEST(change(modulus_of(effects, "lower")) == of_lower, tolerance(frozen));
  BOOST_TEST(change(modulus_of(effects, "upper")) == of_upper, tolerance(frozen));
  BOOST_TEST((effects[0].card == "lower"));
}

BOOST_AUTO_TEST_CASE(a_preload_by_which_a_bar_is_shortened_is_locked_with_it) {
  // The push alone, on top of the preload: crushed by less than both, so that it governs.
  constexpr double crushing = 13.0, share = 5e-3;
  ScrewedBars bars(weak_across(within(E_lower, share), crushing),
                   weak_across(exactly(E_upper), 2.0 * crushing), preload, push);
  const auto by_hand = [](double lower) { return (crushing - preload) / added(lower, E_upper); };
  BOOST_TEST(*bars.result.pressure_factor.value == by_hand(E_lower), tolerance(touching));

  const auto effects = bars.effects();

  BOOST_TEST(
      change(effects[0]) == by_hand(E_lower * (1.0 + share)) - by_hand(E_lower * (1.0 - share)),
      tolerance(frozen));
}

BOOST_AUTO_TEST_CASE(a_gasket_between_them_is_a_spring_in_series) {
  constexpr double crushing = 40.0, share = 5e-3;
  const Bedding gasket{.modulus = 100.0, .thickness = 1.0};
  const double softer = gasket.thickness / gasket.modulus / ScrewedBars::area;
  ScrewedBars bars(weak_across(within(E_lower, share), crushing),
                   weak_across(exactly(E_upper), 2.0 * crushing), preload, push, gasket);
  const auto by_hand = [&](double lower) {
    return crushing / (preload + added(lower, E_upper, softer));
  };
  // Nothing but the linear solver's noise: a gasket gives, and needs no augmentation.
  BOOST_TEST(*bars.result.factor.value == by_hand(E_lower), tolerance(1e-6));

  const auto effects = bars.effects();

  // Of third order in a share of 0.005.
  BOOST_TEST(
      change(effects[0]) == by_hand(E_lower * (1.0 + share)) - by_hand(E_lower * (1.0 - share)),
      tolerance(1e-4));
}

BOOST_AUTO_TEST_CASE(a_wide_range_is_foretold_to_the_square_and_solved_as_if_the_card_said_so) {
  constexpr double crushing = 40.0, share = 0.4;
  const Ranged modulus = within(E_lower, share);
  const LayeredConstants upper = weak_across(within(E_upper, share), 2.0 * crushing);
  ScrewedBars bars(weak_across(modulus, crushing), upper, preload, push);
  auto effects = bars.effects();
  const ConstantEffect foretold = modulus_of(effects, "lower");

  confirm_effects(effects, bars.result, bars.solver, bars.model(), bars.loading, bars.field,
                  bars.solution);

  const ConstantEffect& solved = modulus_of(effects, "lower");
  BOOST_TEST((solved.basis == EffectBasis::solved));
  BOOST_TEST((modulus_of(effects, "upper").basis == EffectBasis::foretold));
  const double nominal = *bars.result.factor.value;
  for (const auto end : {&ConstantEffect::at_low, &ConstantEffect::at_high}) {
    const bool is_low = end == &ConstantEffect::at_low;
    const double E = is_low ? modulus.low : modulus.high;
    BOOST_TEST(*(solved.*end) == crushing / (preload + added(E, E_upper)), tolerance(touching));
    const ScrewedBars with_card(weak_across(exactly(E), crushing), upper, preload, push);
    BOOST_TEST(*(solved.*end) == *with_card.result.factor.value, tolerance(touching));
    // A change of the first order in the share is off by the share of itself.
    const double truly = *(solved.*end) - nominal;
    BOOST_TEST(std::abs(*(foretold.*end) - nominal - truly) < share * std::abs(truly));
  }
  const FactorRange& range = bars.result.cases[0].all_loads.factor;
  BOOST_TEST(*range.low == *solved.at_high, tolerance(1e-12));
  BOOST_TEST(*range.high == *solved.at_low, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_small_effect_is_solved_for_if_the_mesh_is_finer_than_it) {
  ScrewedBars bars(weak_across(within(E_lower, 0.3), 40.0), weak_across(exactly(E_upper), 80.0),
                   preload, push);
  const auto foretold = bars.effects();
  const double reach = reach_of(foretold[0]);
  BOOST_TEST_REQUIRE(reach < 0.1 * *bars.result.factor.value);
  const auto basis_if_off_by = [&](double mesh_error) {
    auto effects = foretold;
    bars.result.mesh_error = MeshError{0.1, mesh_error};
    confirm_effects(effects, bars.result, bars.solver, bars.model(), bars.loading, bars.field,
                    bars.solution);
    return effects[0].basis;
  };

  BOOST_TEST((basis_if_off_by(1.01 * reach) == EffectBasis::foretold));
  BOOST_TEST((basis_if_off_by(0.99 * reach) == EffectBasis::solved));
}

BOOST_AUTO_TEST_CASE(a_large_effect_is_solved_for_whatever_the_mesh) {
  ScrewedBars bars(weak_across(within(E_lower, 0.4), 40.0), weak_across(exactly(E_upper), 80.0),
                   preload, push);
  auto effects = bars.effects();
  BOOST_TEST_REQUIRE(reach_of(effects[0]) > 0.1 * *bars.result.factor.value);
  bars.result.mesh_error = MeshError{0.1, 2.0 * reach_of(effects[0])};

  confirm_effects(effects, bars.result, bars.solver, bars.model(), bars.loading, bars.field,
                  bars.solution);

  BOOST_TEST((effects[0].basis == EffectBasis::solved));
}

BOOST_AUTO_TEST_SUITE_END()
