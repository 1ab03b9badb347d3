// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/compare.h"

#include <boost/test/unit_test.hpp>

using namespace crossgrain;

namespace {

RunSummary run(double factor, const std::string& direction) {
  RunSummary summary;
  summary.verdict = "pass";
  summary.settings = {{"body: print direction", direction}, {"pressure 'water'", "0.4 MPa"}};
  summary.factor = {factor, 0.8 * factor, 1.2 * factor};
  summary.governing_mode = "layers pull apart";
  summary.governing_body = "bowl";
  summary.allowable_pressure_MPa = 0.1 * factor;
  summary.case_factors = {{"working", summary.factor}};
  return summary;
}

const ComparedValue& row(const std::vector<ComparedValue>& rows, const std::string& quantity) {
  const auto found = std::ranges::find(rows, quantity, &ComparedValue::quantity);
  BOOST_REQUIRE((found != rows.end()));
  return *found;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(comparing_runs)

BOOST_AUTO_TEST_CASE(shows_only_the_settings_that_differ_and_the_change_of_each_result) {
  const auto comparison = compare_runs(run(4.0, "+z"), run(3.0, "+x"));

  BOOST_REQUIRE(comparison.settings.size() == 1);
  BOOST_TEST(comparison.settings[0].first == "+z");
  BOOST_TEST(comparison.settings[0].second == "+x");
  BOOST_TEST(row(comparison.results, "factor on all loads").first == "4 (3.2 to 4.8)");
  BOOST_TEST(row(comparison.results, "factor on all loads").change == "-25 %");
  BOOST_TEST(row(comparison.results, "allowable pressure").second == "0.3");
  BOOST_TEST(row(comparison.results, "factor, working").change == "-25 %");
}

BOOST_AUTO_TEST_CASE(shows_settings_and_cases_that_only_one_run_has) {
  auto second = run(4.0, "+z");
  second.settings.push_back({"gasket 'flange'", "faces 3"});
  second.case_factors.push_back({"assembly", {5.0, 5.0, 5.0}});

  const auto comparison = compare_runs(run(4.0, "+z"), second);

  BOOST_REQUIRE(comparison.settings.size() == 1);
  BOOST_TEST(comparison.settings[0].quantity == "gasket 'flange'");
  BOOST_TEST(comparison.settings[0].first == "-");
  BOOST_TEST(row(comparison.results, "factor, assembly").first == "-");
  BOOST_TEST(row(comparison.results, "factor, assembly").second == "5");
}

BOOST_AUTO_TEST_CASE(says_so_when_both_runs_asked_the_same) {
  const auto comparison = compare_runs(run(4.0, "+z"), run(4.0, "+z"));

  BOOST_REQUIRE(!comparison.sentences.empty());
  BOOST_TEST(comparison.sentences.front() ==
             "Both runs asked the same question: what differs comes from the program.");
}

BOOST_AUTO_TEST_CASE(no_limit_is_not_compared_as_a_number) {
  auto unlimited = run(4.0, "+z");
  unlimited.factor = {};

  const auto comparison = compare_runs(run(4.0, "+z"), unlimited);

  BOOST_TEST(row(comparison.results, "factor on all loads").second ==
             "without a limit that was found");
  BOOST_TEST(row(comparison.results, "factor on all loads").change == "");
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(settings_of_a_case)

BOOST_AUTO_TEST_CASE(tell_units_in_which_people_think) {
  CaseFile case_file;
  BodySpec body;
  body.material = "petg";
  body.print_direction = {0, 0, 1};
  case_file.bodies = {body};
  case_file.conditions.service.temperature_K = 313.15;
  case_file.conditions.service.duration_s = 7200;
  PressureLoad water;
  water.name = "water";
  water.value = 0.4;
  case_file.pressures = {water};

  const auto settings = case_settings(case_file);
  const auto value = [&](const std::string& name) {
    const auto found =
        std::ranges::find(settings, name, &std::pair<std::string, std::string>::first);
    return found == settings.end() ? std::string("absent") : found->second;
  };

  BOOST_TEST(value("body: material") == "petg");
  BOOST_TEST(value("body: print direction") == "(0, 0, 1)");
  BOOST_TEST(value("temperature") == "40 degC");
  BOOST_TEST(value("duration") == "2 h");
  BOOST_TEST(value("pressure 'water'") == "0.4 MPa");
  BOOST_TEST(value("target safety factor") == "3");
}

BOOST_AUTO_TEST_SUITE_END()
