// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/case_combinations.h"

#include <boost/test/unit_test.hpp>

using namespace crossgrain;
namespace tt = boost::test_tools;

namespace {

constexpr double rounding = 1e-12;

// Places among the elementary loads.
enum { water, pipe_force, gravity, warming, screws, relief, share };

struct Model {
  CaseFile case_file;
  Loading loading;
  LoadRoles roles;

  void add_user_case(const std::string& name, const std::map<std::string, double>& factors) {
    auto& added = case_file.load_cases.emplace_back();
    added.name = name;
    added.factors = factors;
  }
  std::vector<LoadCase> cases() const { return combine_cases(case_file, loading, roles); }
};

ElementaryLoad named(const std::string& name, bool scales) {
  ElementaryLoad load;
  load.name = name;
  load.scales = scales;
  return load;
}

/// Water at 0.4 MPa pushes a lid with 1000 N; screws with a scatter of 2 close it with 3000 N.
Model flange() {
  Model model;
  model.loading.loads = {named("water", true),    named("pipe", true),    named("gravity", false),
                         named("warming", false), named("screws", false), named("relief", false),
                         named("share", false)};
  model.loading.leading_pressure = "water";
  model.loading.working_pressure_MPa = 0.4;
  model.roles.preloads = {{"screws", screws, 2.0 / 3.0, 4.0 / 3.0}};
  model.roles.joints = {{"gasket", "screws", "water", relief, share, 3000.0, 1000.0}};
  model.case_file.pressures.resize(1);
  model.case_file.pressures[0].name = "water";
  model.case_file.forces.resize(1);
  model.case_file.forces[0].name = "pipe";
  model.case_file.bolts.resize(1);
  model.case_file.bolts[0].name = "screws";
  model.case_file.temperatures.resize(1);
  model.case_file.temperatures[0].name = "warming";
  return model;
}

std::vector<LoadCase> of_kind(const std::vector<LoadCase>& cases, CaseKind kind) {
  std::vector<LoadCase> chosen;
  for (const auto& load_case : cases) {
    if (load_case.kind == kind) chosen.push_back(load_case);
  }
  return chosen;
}

const LoadCase& bounded(const std::vector<LoadCase>& cases, const std::string& bound) {
  const auto found = std::ranges::find(cases, bound, &LoadCase::bound);
  BOOST_REQUIRE_MESSAGE(found != cases.end(), "no case is bounded by '" << bound << "'");
  return *found;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(load_cases)

BOOST_AUTO_TEST_CASE(come_as_assembly_working_user_and_proof) {
  auto model = flange();
  model.add_user_case("hot start", {{"warming", 2.0}});

  const auto cases = model.cases();

  BOOST_TEST((cases.front().kind == CaseKind::assembly));
  BOOST_TEST((cases.back().kind == CaseKind::proof));
  BOOST_TEST(of_kind(cases, CaseKind::assembly).size() == 1);
  BOOST_TEST(of_kind(cases, CaseKind::working).size() == 4);  // two bounds, two preloads
  BOOST_TEST(of_kind(cases, CaseKind::user).size() == 1);     // no pressure, no preload in it
  BOOST_TEST(of_kind(cases, CaseKind::proof).size() == 4);
}

BOOST_AUTO_TEST_CASE(the_assembly_holds_what_does_not_scale_at_the_greatest_preload) {
  const auto assembly = flange().cases().front();

  BOOST_TEST(assembly.name == "assembly");
  BOOST_TEST(assembly.held[screws] == 4.0 / 3.0);
  BOOST_TEST(assembly.held[gravity] == 1.0);
  BOOST_TEST(assembly.held[warming] == 1.0);
  for (const double c : assembly.scaling) BOOST_TEST(c == 0.0);
  BOOST_TEST(assembly.held[water] == 0.0);
  BOOST_TEST(!assembly.leading_pressure.has_value());
}

BOOST_AUTO_TEST_CASE(each_bound_lets_the_pressure_act_on_the_gasket_or_on_the_screws) {
  const auto working = of_kind(flange().cases(), CaseKind::working);

  const auto& none = bounded(working, "screws take none of the pressure, least preload");
  const auto& all = bounded(working, "screws take all of the pressure, greatest preload");

  BOOST_TEST(none.held[screws] == 2.0 / 3.0);
  BOOST_TEST(none.scaling[water] == 1.0);
  BOOST_TEST(none.scaling[pipe_force] == 1.0);
  BOOST_TEST(none.scaling[relief] == 1.0);
  BOOST_TEST(none.scaling[share] == 0.0);
  BOOST_TEST(all.held[screws] == 4.0 / 3.0);
  BOOST_TEST(all.scaling[relief] == 0.0);
  BOOST_TEST(all.scaling[share] == 1.0);
  BOOST_TEST(*all.leading_pressure == "water");
  BOOST_TEST(all.leading_value_MPa == 0.4);
}

// The gasket is relieved where the screws' pull equals the fluid's thrust: 2/3 of 3000 N = 2 times
// 1000 N, 4/3 of it = 4 times.
BOOST_AUTO_TEST_CASE(the_multiplier_ends_where_the_gasket_is_relieved) {
  const auto working = of_kind(flange().cases(), CaseKind::working);

  const auto& least = bounded(working, "screws take none of the pressure, least preload");
  const auto& greatest = bounded(working, "screws take none of the pressure, greatest preload");
  const auto& all = bounded(working, "screws take all of the pressure, least preload");

  BOOST_TEST(*least.largest_lambda == 2.0, tt::tolerance(rounding));
  BOOST_TEST(least.largest_lambda_reason == "the gasket is relieved: the joint 'gasket' opens");
  BOOST_TEST(*greatest.largest_lambda == 4.0, tt::tolerance(rounding));
  BOOST_TEST(!all.largest_lambda.has_value());
}

BOOST_AUTO_TEST_CASE(a_held_pressure_relieves_the_gasket_before_the_scaling_ones) {
  auto model = flange();
  model.loading.loads[water].scales = false;
  model.loading.leading_pressure.reset();
  model.roles.joints[0].opening_N = 2500.0;  // more than the least preload of 2000 N

  const auto cases = model.cases();
  const auto working = of_kind(cases, CaseKind::working);
  const auto& least = bounded(working, "screws take none of the pressure, least preload");

  BOOST_TEST(least.held[relief] == 1.0);
  BOOST_TEST(*least.largest_lambda == 0.0);
  // The held state alone has the joint's two bounds as well.
  BOOST_TEST(of_kind(cases, CaseKind::assembly).size() == 2);
}

BOOST_AUTO_TEST_CASE(a_vacuum_presses_the_gasket_and_slackens_the_screws) {
  auto model = flange();
  model.loading.working_pressure_MPa = -0.09;
  model.roles.joints[0].opening_N = -500.0;

  const auto working = of_kind(model.cases(), CaseKind::working);

  BOOST_TEST(!bounded(working, "screws take none of the pressure, least preload")
                  .largest_lambda.has_value());
  const auto& all = bounded(working, "screws take all of the pressure, least preload");
  BOOST_TEST(*all.largest_lambda == 4.0, tt::tolerance(rounding));
  BOOST_TEST(all.largest_lambda_reason == "the screws 'screws' go slack");
}

BOOST_AUTO_TEST_CASE(without_scatter_there_is_one_preload) {
  auto model = flange();
  model.roles.preloads[0].least = model.roles.preloads[0].greatest = 1.0;

  const auto working = of_kind(model.cases(), CaseKind::working);

  BOOST_TEST(working.size() == 2);
  BOOST_TEST(bounded(working, "screws take none of the pressure").held[screws] == 1.0);
}

BOOST_AUTO_TEST_CASE(a_users_case_has_only_what_it_names) {
  auto model = flange();
  model.add_user_case("surge", {{"water", 1.6}, {"screws", 1.0}});

  const auto surge = of_kind(model.cases(), CaseKind::user);

  BOOST_REQUIRE(surge.size() == 4);
  const auto& none = bounded(surge, "screws take none of the pressure, least preload");
  BOOST_TEST(none.name == "surge");
  BOOST_TEST(none.scaling[water] == 1.6);
  BOOST_TEST(none.scaling[relief] == 1.6);
  BOOST_TEST(none.held[gravity] == 0.0);
  BOOST_TEST(none.scaling[pipe_force] == 0.0);
  BOOST_TEST(none.leading_value_MPa == 0.64, tt::tolerance(rounding));
  BOOST_TEST(*none.largest_lambda == 2000.0 / 1600.0, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(pressure_without_preload_hangs_on_the_screws) {
  auto model = flange();
  model.add_user_case("loose", {{"water", 1.0}});

  const auto loose = of_kind(model.cases(), CaseKind::user);

  BOOST_REQUIRE(loose.size() == 1);
  BOOST_TEST(loose[0].scaling[share] == 1.0);
  BOOST_TEST(loose[0].held[screws] == 0.0);
}

BOOST_AUTO_TEST_CASE(the_proof_raises_pressures_alone_and_is_judged_by_short_term_strengths) {
  auto model = flange();
  model.case_file.targets.proof_factor = 1.5;

  const auto proof = of_kind(model.cases(), CaseKind::proof);
  const auto& none = bounded(proof, "screws take none of the pressure, least preload");

  BOOST_TEST((none.strengths == StrengthBasis::proof));
  BOOST_TEST(none.scaling[water] == 1.5);
  BOOST_TEST(none.scaling[relief] == 1.5);
  BOOST_TEST(none.scaling[pipe_force] == 0.0);
  BOOST_TEST(none.held[pipe_force] == 1.0);
  BOOST_TEST(none.held[warming] == 0.0);  // tested at 23 degC
  BOOST_TEST(none.leading_value_MPa == 0.6, tt::tolerance(rounding));
  BOOST_TEST(*none.largest_lambda == 2000.0 / 1500.0, tt::tolerance(rounding));
  for (const auto& other : of_kind(model.cases(), CaseKind::working)) {
    BOOST_TEST((other.strengths == StrengthBasis::service));
  }
}

// ISO 2533: one standard atmosphere is 0.101325 MPa.
BOOST_AUTO_TEST_CASE(a_vacuum_is_proved_no_further_than_the_perfect_one) {
  auto model = flange();
  model.roles.joints.clear();
  model.loading.working_pressure_MPa = -0.09;

  const auto proof = of_kind(model.cases(), CaseKind::proof);

  BOOST_TEST(proof[0].leading_value_MPa == -0.101325, tt::tolerance(rounding));
}

BOOST_AUTO_TEST_CASE(a_part_under_pressure_alone_has_a_working_and_a_proof_case) {
  Model model;
  model.loading.loads = {named("water", true)};
  model.loading.leading_pressure = "water";
  model.loading.working_pressure_MPa = 0.4;
  model.case_file.pressures.resize(1);
  model.case_file.pressures[0].name = "water";

  const auto cases = model.cases();

  BOOST_REQUIRE(cases.size() == 2);
  BOOST_TEST((cases[0].kind == CaseKind::working));
  BOOST_TEST(cases[0].bound == "");
  BOOST_TEST((cases[1].kind == CaseKind::proof));
}

BOOST_AUTO_TEST_SUITE_END()
