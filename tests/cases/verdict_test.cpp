// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/verdict.h"

#include <boost/test/unit_test.hpp>
#include <limits>

#include "cases/judgement/cautions.h"
#include "cases/judgement/verdict_sentence.h"

using namespace crossgrain;
namespace tt = boost::test_tools;

namespace {

ModeResult mode_at(FailureMode mode, const FactorRange& factor) {
  ModeResult result;
  result.mode = mode;
  result.factor = factor;
  result.position = {1, 2, 3};
  result.body = "bowl";
  result.face = FaceId{12};
  result.stress.setZero();
  return result;
}

/// A case at 0.4 MPa whose two factors are given and whose allowable pressure follows from a target
/// of 3.
CaseResult judged(const std::string& name, CaseKind kind, const FactorRange& on_all,
                  const FactorRange& on_pressure) {
  CaseResult result;
  result.name = name;
  result.kind = kind;
  result.all_loads.factor = on_all;
  result.all_loads.governing = mode_at(FailureMode::interlayer, on_all);
  result.all_loads.modes = {*result.all_loads.governing};
  result.scaling_loads.factor = on_pressure;
  result.scaling_loads.governing = mode_at(FailureMode::in_layer_tension, on_pressure);
  result.leading_value_MPa = 0.4;
  if (on_pressure.value) result.allowable_pressure_MPa = *on_pressure.value / 3.0 * 0.4;
  result.allowable_pressure_low_MPa = result.allowable_pressure_MPa;
  result.allowable_pressure_high_MPa = result.allowable_pressure_MPa;
  result.allowable_limited_by = "layers pull apart";
  result.displacement_max_mm = 0.1;
  result.strain_energy_mJ = 5.0;
  return result;
}

RunResult sound_run(const FactorRange& on_all, const FactorRange& on_pressure) {
  RunResult run;
  run.balance = {1e-12, 1e-12, 1e-13, 1e-4, 0.0};
  run.mesh_report.layers_min = 2;
  run.mesh_report.min_scaled_jacobian = 0.4;
  run.working_pressure_MPa = 0.4;
  run.cases = {judged("working", CaseKind::working, on_all, on_pressure)};
  return run;
}

FactorRange range(double value, double low, double high) { return {value, low, high}; }

Verdict verdict_of(RunResult run) {
  conclude(run, 2);
  return run.verdict;
}

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

constexpr double rounding = 1e-12;

}  // namespace

BOOST_AUTO_TEST_SUITE(verdict)

BOOST_AUTO_TEST_CASE(a_range_that_begins_at_zero_says_which_limit_what_is_held_breaks) {
  RunResult run = sound_run(range(4.0, 2.0, 5.0), range(4.0, 0.0, 6.0));
  Judgement& on_pressure = run.cases[0].scaling_loads;
  on_pressure.modes = {mode_at(FailureMode::interlayer, range(5.0, 3.0, 6.0)),
                       mode_at(FailureMode::tsai_wu, range(3.0, 0.0, 6.0)),
                       mode_at(FailureMode::in_layer_tension, range(4.0, 0.0, 6.0))};
  find_worst(run);

  const std::string why = why_from_zero(run);

  BOOST_TEST(why ==
             "The range begins at 0 because, if constants are as weak as they may be, what is held "
             "(preload, weight, warmth) breaks a limit by itself, before any pressure comes: the "
             "layer tears in its own plane, load case working.");
  RunResult other = sound_run(range(4.0, 2.0, 5.0), range(4.0, 1.0, 6.0));
  find_worst(other);
  BOOST_TEST(why_from_zero(other) == "");
}

BOOST_AUTO_TEST_CASE(passes_when_the_low_ends_meet_the_target) {
  BOOST_TEST((verdict_of(sound_run(range(3.5, 3.0, 4), range(3.6, 3.1, 4))) == Verdict::pass));
}

BOOST_AUTO_TEST_CASE(is_marginal_when_the_target_lies_inside_a_range) {
  BOOST_TEST((verdict_of(sound_run(range(3.5, 2.9, 4), range(9, 9, 9))) == Verdict::marginal));
  BOOST_TEST((verdict_of(sound_run(range(9, 9, 9), range(2.5, 2, 3.1))) == Verdict::marginal));
}

BOOST_AUTO_TEST_CASE(lets_the_mesh_s_error_widen_the_range) {
  RunResult run = sound_run(range(3.5, 3.2, 4), range(9, 9, 9));
  run.mesh_error = MeshError{0.05, 0.2};  // 3.2 less a part of 0.2 / 3.5 is 3.02
  BOOST_TEST((verdict_of(run) == Verdict::pass));
  run.mesh_error = MeshError{0.05, 0.3};
  BOOST_TEST((verdict_of(run) == Verdict::marginal));
  conclude(run, 2);
  BOOST_TEST(run.verdict_sentence.find("the mesh may be off by 0.3 of the factor") !=
             std::string::npos);
  RunResult weak = sound_run(range(2.5, 2, 2.9), range(9, 9, 9));
  weak.mesh_error = MeshError{0.05, 0.1};
  BOOST_TEST((verdict_of(weak) == Verdict::marginal));
  weak.mesh_error = MeshError{0.05, 0.05};
  BOOST_TEST((verdict_of(weak) == Verdict::fail));
}

BOOST_AUTO_TEST_CASE(distrusts_a_body_whose_volume_or_mass_is_off) {
  RunResult run = sound_run(range(3.5, 3.2, 4), range(9, 9, 9));
  run.balance.bodies = {{"lid", 1000.0, 1001.0, 1.2, 1.2012},
                        {"bowl", 1000.0, 1001.0, 1.2, 1.2012}};
  BOOST_TEST((verdict_of(run) == Verdict::pass));
  run.balance.bodies[1].volume_mm3 = 980.0;
  BOOST_TEST((verdict_of(run) == Verdict::not_trusted));
  conclude(run, 2);
  BOOST_TEST(contains(run.verdict_sentence, "Not to be relied on: the error of body 'bowl'"));
  run.balance.bodies[1] = {"bowl", 1000.0, 1001.0, std::nan(""), 1.2012};
  BOOST_TEST((verdict_of(run) == Verdict::not_trusted));
}

BOOST_AUTO_TEST_CASE(another_mode_s_mesh_error_may_keep_it_from_a_plain_pass) {
  RunResult run = sound_run(range(3.5, 3.2, 4), range(9, 9, 9));
  run.cases[0].all_loads.modes.push_back(
      mode_at(FailureMode::build_compression, range(3.6, 3.3, 4)));
  run.cases[0].all_loads.modes.back().position = {7, 8, 9};
  run.cases[0].all_loads.modes.back().mesh_error = 0.2;
  BOOST_TEST((verdict_of(run) == Verdict::pass));
  run.cases[0].all_loads.modes.back().mesh_error = 0.4;  // 3.3 less a part of 0.4 / 3.6 is 2.93
  BOOST_TEST((verdict_of(run) == Verdict::marginal));
  conclude(run, 2);
  BOOST_TEST(contains(run.verdict_sentence, "the mesh may be off by 0.4 of another factor"));
}

BOOST_AUTO_TEST_CASE(a_zone_that_the_mesh_hides_is_told_and_no_plain_pass) {
  RunResult run = sound_run(range(3.5, 3.2, 4), range(9, 9, 9));
  run.hidden_zone = HiddenZone{mode_at(FailureMode::interlayer, range(2, 2, 2)), 9.6, 0.45};
  BOOST_TEST((verdict_of(run) == Verdict::marginal));
  conclude(run, 2);
  BOOST_TEST(contains(run.warnings.back(), "beside a support at (1, 2, 3) mm"));
}

BOOST_AUTO_TEST_CASE(fails_when_a_high_end_is_below_the_target) {
  BOOST_TEST((verdict_of(sound_run(range(2, 1.5, 2.9), range(9, 9, 9))) == Verdict::fail));
  BOOST_TEST((verdict_of(sound_run(range(9, 9, 9), range(2, 1.5, 2.9))) == Verdict::fail));
}

BOOST_AUTO_TEST_CASE(passes_where_no_limit_was_found) {
  auto run = sound_run({}, {});

  conclude(run, 2);

  BOOST_TEST((run.verdict == Verdict::pass));
  BOOST_TEST(!run.factor.value.has_value());
  BOOST_TEST(!run.allowable_pressure_MPa.has_value());
  BOOST_TEST(contains(run.verdict_sentence, "No limit was found."));
}

BOOST_AUTO_TEST_CASE(tells_what_gives_way_first_where_and_at_what_pressure) {
  auto run = sound_run(range(6, 5, 7), range(5, 4, 6));

  conclude(run, 2);

  BOOST_TEST(
      run.verdict_sentence ==
      "The factor is 5 (4 to 6); 3 is asked for. First to give way: " +
          std::string(words_for(FailureMode::in_layer_tension)) +
          " in 'bowl' at (1, 2, 3) mm on face 12, at 5 times the pressure, load case working.");
}

BOOST_AUTO_TEST_CASE(tells_a_joint_that_opens_before_anything_breaks) {
  auto run = sound_run(range(6, 6, 6), range(2, 2, 2));
  run.cases[0].scaling_loads.governing.reset();
  run.cases[0].scaling_loads.limited_by = "the gasket is relieved: the joint 'flange' opens";

  conclude(run, 2);

  BOOST_TEST((run.verdict == Verdict::fail));
  BOOST_TEST(
      contains(run.verdict_sentence,
               "First to give way: the gasket is relieved: the joint 'flange' opens, at 2 times "
               "the pressure"));
  BOOST_REQUIRE(run.governing.has_value());  // the weakest place is still shown
}

BOOST_AUTO_TEST_CASE(lets_the_assembly_govern_when_it_is_the_worst_state) {
  auto run = sound_run(range(6, 6, 6), range(5, 5, 5));
  auto assembly = judged("assembly", CaseKind::assembly, range(2.5, 2, 2.8), {});
  assembly.scaling_loads.applies = false;
  assembly.leading_value_MPa.reset();
  run.cases.insert(run.cases.begin(), assembly);

  conclude(run, 2);

  BOOST_TEST((run.verdict == Verdict::fail));
  BOOST_TEST(run.governing_case == "assembly");
  BOOST_TEST(*run.factor.value == 2.5);
  BOOST_TEST(*run.pressure_factor.value == 5.0);
  BOOST_TEST(contains(run.verdict_sentence, "with all loads together at 2.5 times their size"));
}

BOOST_AUTO_TEST_CASE(takes_the_worst_of_the_bounds_and_the_least_allowable_pressure) {
  auto run = sound_run(range(6, 6, 6), range(5, 5, 5));
  run.cases.push_back(judged("working", CaseKind::working, range(4, 4, 4), range(4.5, 4.5, 4.5)));
  run.cases.back().bound = "screws take all of the pressure";

  conclude(run, 2);

  BOOST_TEST(*run.factor.value == 4.0);
  BOOST_TEST(*run.pressure_factor.value == 4.5);
  BOOST_TEST(run.governing_case == "working (screws take all of the pressure)");
  BOOST_TEST(*run.allowable_pressure_MPa == 0.6, tt::tolerance(rounding));
  BOOST_TEST(contains(run.allowable_limited_by, "screws take all of the pressure"));
}

BOOST_AUTO_TEST_CASE(takes_the_vacuum_nearest_to_none_as_the_allowable_one) {
  auto run = sound_run(range(6, 6, 6), range(5, 5, 5));
  run.cases[0].allowable_pressure_MPa = -0.09;
  run.cases.push_back(run.cases[0]);
  run.cases[1].allowable_pressure_MPa = -0.05;

  conclude(run, 2);

  BOOST_TEST(*run.allowable_pressure_MPa == -0.05);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(distrust)

BOOST_AUTO_TEST_CASE(a_stress_that_is_not_a_number_is_said_first_whatever_the_factor) {
  auto run = sound_run(range(9, 9, 9), range(9, 9, 9));
  run.cases[0].distrust = {"the stress is not a number at 1 of 4 points"};

  conclude(run, 2);

  BOOST_TEST((run.verdict == Verdict::not_trusted));
  BOOST_TEST(run.verdict_sentence.find("Not to be relied on: load case working: the stress is not "
                                       "a number") == 0);
}

BOOST_AUTO_TEST_CASE(each_balance_figure_has_its_limit_and_NaN_is_past_it) {
  const auto verdict_with = [](auto BalanceReport::*figure, double value) {
    auto run = sound_run(range(9, 9, 9), range(9, 9, 9));
    run.balance.*figure = value;
    return verdict_of(run);
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();

  BOOST_TEST((verdict_with(&BalanceReport::force_error, 0.9e-6) == Verdict::pass));
  BOOST_TEST((verdict_with(&BalanceReport::force_error, 1.1e-6) == Verdict::not_trusted));
  BOOST_TEST((verdict_with(&BalanceReport::force_error, nan) == Verdict::not_trusted));
  BOOST_TEST((verdict_with(&BalanceReport::moment_error, 1.1e-6) == Verdict::not_trusted));
  BOOST_TEST((verdict_with(&BalanceReport::residual, 0.9e-8) == Verdict::pass));
  BOOST_TEST((verdict_with(&BalanceReport::residual, 1.1e-8) == Verdict::not_trusted));
  BOOST_TEST((verdict_with(&BalanceReport::residual, nan) == Verdict::not_trusted));
  BOOST_TEST((verdict_with(&BalanceReport::volume_error, 0.009) == Verdict::pass));
  BOOST_TEST((verdict_with(&BalanceReport::volume_error, 0.011) == Verdict::not_trusted));
  BOOST_TEST((verdict_with(&BalanceReport::volume_error, nan) == Verdict::not_trusted));
}

BOOST_AUTO_TEST_CASE(a_residual_of_round_off_is_trusted_while_it_means_no_energy) {
  const auto verdict_with = [](double energy_error) {
    auto run = sound_run(range(9, 9, 9), range(9, 9, 9));
    run.balance.residual = 2e-8;
    run.balance.energy_error = energy_error;
    return verdict_of(run);
  };
  BOOST_TEST((verdict_with(0.9e-6) == Verdict::pass));
  BOOST_TEST((verdict_with(1.1e-6) == Verdict::not_trusted));
  BOOST_TEST((verdict_with(std::numeric_limits<double>::quiet_NaN()) == Verdict::not_trusted));
}

BOOST_AUTO_TEST_CASE(a_run_without_a_judged_case_is_not_trusted) {
  auto run = sound_run(range(9, 9, 9), range(9, 9, 9));
  run.cases.clear();

  BOOST_TEST((verdict_of(run) == Verdict::not_trusted));
}

BOOST_AUTO_TEST_CASE(a_mesh_too_coarse_to_tell_the_factor_is_a_warning) {
  RunResult run = sound_run(range(8, 8, 8), range(8, 8, 8));
  run.mesh_error = MeshError{0.1, 1.9};
  conclude(run, 2);
  BOOST_TEST(run.warnings.empty());
  run.mesh_error = MeshError{0.1, 2.1};
  conclude(run, 2);
  BOOST_REQUIRE(run.warnings.size() == 1);
  BOOST_TEST(run.warnings[0].find("may be off by 2.1") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(an_error_of_the_mesh_that_is_no_number_is_told) {
  RunResult run = sound_run(range(8, 8, 8), range(8, 8, 8));
  run.mesh_error = MeshError{0.1, std::nan("")};
  BOOST_TEST((verdict_of(run) == Verdict::not_trusted));
  run.mesh_error = MeshError{std::nan(""), 0.1};
  BOOST_TEST((verdict_of(run) == Verdict::not_trusted));
}

BOOST_AUTO_TEST_CASE(an_element_inside_out_and_a_wall_without_a_layer_are_told) {
  RunResult tangled = sound_run(range(4, 4, 4), range(4, 4, 4));
  tangled.mesh_report.min_scaled_jacobian = -0.1;
  BOOST_TEST((verdict_of(tangled) == Verdict::not_trusted));
  tangled.mesh_report.min_scaled_jacobian = 2e-4;  // right side out, and yet its stress was wrong
  tangled.mesh_report.flattest_at = {4, 5, 6};
  BOOST_TEST((verdict_of(tangled) == Verdict::not_trusted));
  conclude(tangled, 2);
  BOOST_TEST(contains(tangled.distrust.front(), "at (4, 5, 6) mm is too flat"));
  tangled.mesh_report.min_scaled_jacobian = 0.0051;  // of a threaded screw, meshed as it should be
  tangled.distrust.clear();
  BOOST_TEST((verdict_of(tangled) == Verdict::pass));
  tangled.mesh_report.min_scaled_jacobian = std::nan("");
  BOOST_TEST((verdict_of(tangled) == Verdict::not_trusted));
  RunResult hollow = sound_run(range(4, 4, 4), range(4, 4, 4));
  hollow.mesh_report.layers_min = 0;
  BOOST_TEST((verdict_of(hollow) == Verdict::not_trusted));
}

BOOST_AUTO_TEST_CASE(fewer_layers_than_asked_for_are_a_warning) {
  auto run = sound_run(range(9, 9, 9), range(9, 9, 9));
  run.mesh_report.layers_min = 1;

  conclude(run, 2);

  BOOST_TEST((run.verdict == Verdict::pass));
  BOOST_REQUIRE(run.warnings.size() == 1);
  BOOST_TEST(run.warnings.front() ==
             "the thinnest walls hold 1 layers of elements, 2 were asked for: bending of those "
             "walls is less certain");
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(buckling_in_the_verdict)

BOOST_AUTO_TEST_CASE(unchecked_allows_no_plain_pass) {
  auto run = sound_run(range(9, 9, 9), range(9, 9, 9));
  run.buckling.applies = true;

  conclude(run, 2);

  BOOST_TEST((run.verdict == Verdict::marginal));
  BOOST_TEST(contains(run.verdict_sentence,
                      "No plain pass: buckling under external pressure was not checked."));
}

BOOST_AUTO_TEST_CASE(below_the_target_fails_and_limits_the_allowable_pressure) {
  auto run = sound_run(range(9, 9, 9), range(9, 9, 9));
  run.buckling = {true, true, 0.6, 1.5, ""};

  conclude(run, 2);

  BOOST_TEST((run.verdict == Verdict::fail));
  BOOST_TEST(*run.allowable_pressure_MPa == 0.2, tt::tolerance(rounding));
  BOOST_TEST(run.allowable_limited_by == "buckling");
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(joint_in_the_verdict)

BOOST_AUTO_TEST_CASE(breaking_a_firm_limit_fails_and_an_estimated_one_leaves_doubt) {
  auto run = sound_run(range(9, 9, 9), range(9, 9, 9));
  JointLine pull{};
  pull.mode = JointMode::pull_out;
  pull.owner = "lid screws";
  pull.value = 900.0;
  pull.limit = {1000.0, LimitStanding::given, "test"};
  run.joint = JudgedJoint{};
  run.joint->lines = {pull};
  BOOST_TEST((verdict_of(run) == Verdict::pass));

  run.joint->lines[0].value = 1100.0;
  BOOST_TEST((verdict_of(run) == Verdict::fail));
  conclude(run, 2);
  BOOST_TEST(contains(run.verdict_sentence,
                      "the joint does not hold (insert pulled out of 'lid screws')"));
  // Nor does a factor that leaves doubt soften that.
  auto doubtful = sound_run(range(4, 2, 9), range(4, 2, 9));
  BOOST_TEST((verdict_of(doubtful) == Verdict::marginal));
  doubtful.joint = run.joint;
  BOOST_TEST((verdict_of(doubtful) == Verdict::fail));

  run.joint->lines[0].limit.standing = LimitStanding::estimated;
  BOOST_TEST((verdict_of(run) == Verdict::marginal));

  run.joint->lines[0].value = std::numeric_limits<double>::quiet_NaN();
  BOOST_TEST((verdict_of(run) == Verdict::fail));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(proof_test)

BOOST_AUTO_TEST_CASE(is_at_the_planned_pressure_when_the_short_term_strengths_allow_it) {
  auto run = sound_run(range(9, 9, 9), range(9, 9, 9));
  auto proof = judged("proof", CaseKind::proof, range(2, 2, 2), range(2, 2, 2));
  proof.leading_value_MPa = 0.6;
  proof.allowable_pressure_MPa = proof.allowable_pressure_low_MPa = 1.2;
  run.cases.push_back(proof);

  conclude(run, 2);

  BOOST_TEST((run.verdict == Verdict::pass));  // proof asks no factor of 3 of its own
  BOOST_TEST(*run.factor.value == 9.0);
  BOOST_TEST(*run.proof_pressure_MPa == 0.6);
  BOOST_TEST(!run.proof_breaks_limit);
  BOOST_TEST(contains(run.proof_statement, "Prove with water, all air bled"));
}

BOOST_AUTO_TEST_CASE(that_would_itself_break_a_limit_is_said_and_is_no_plain_pass) {
  auto run = sound_run(range(9, 9, 9), range(9, 9, 9));
  auto proof = judged("proof", CaseKind::proof, range(0.8, 0.8, 0.8), range(0.8, 0.8, 0.8));
  proof.leading_value_MPa = 0.6;
  proof.allowable_pressure_MPa = proof.allowable_pressure_low_MPa = 0.48;
  run.cases.push_back(proof);

  conclude(run, 2);

  BOOST_TEST((run.verdict == Verdict::marginal));
  BOOST_TEST(run.proof_breaks_limit);
  BOOST_TEST(*run.proof_pressure_MPa == 0.48);
  BOOST_TEST(
      contains(run.proof_statement,
               "The proof test asked for would itself break a limit (layers pull apart): the "
               "short-term strengths allow 0.8 of its pressure."));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(cautions)

// Common practice, no source: the list is that of the references' chapter on pressure safety.
BOOST_AUTO_TEST_CASE(name_what_a_strength_calculation_cannot_see) {
  const auto texts = usual_cautions({});
  const auto mentions = [&](const std::string& word) {
    return std::ranges::any_of(texts, [&](const auto& text) { return contains(text, word); });
  };

  for (const auto* word : {"fragments", "proof test", "Moisture", "weep", "water", "scatter",
                           "certification", "local codes"}) {
    BOOST_TEST(mentions(word), "no caution mentions '" << word << "'");
  }
}

BOOST_AUTO_TEST_CASE(put_the_gas_warning_first) {
  Conditions conditions;
  conditions.medium = Medium::gas;
  conditions.medium_name = "air";

  BOOST_TEST(usual_cautions(conditions).front().find("Gas (air) stores") == 0);
  BOOST_TEST(usual_cautions({}).front().find("Gas") == std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()
