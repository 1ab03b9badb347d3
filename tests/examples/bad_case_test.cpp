// SPDX-License-Identifier: GPL-3.0-or-later
// What is wrong with a case: status 2, a message with file, line, value and remedy, and no result.
#include <boost/test/unit_test.hpp>

#include "tests/examples/example_case.h"

namespace crossgrain::testing {
namespace {

/// Where a part of a text stands, as a message names it: "pipe-tee.toml:12".
std::string place_of(const std::string& text, const std::string& part) {
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(text.find(part));
  return "pipe-tee.toml:" + std::to_string(1 + std::count(text.begin(), end, '\n'));
}

struct Tee : ExampleCopy {
  Tee() : ExampleCopy("pipe-tee") {}

  void refuse_with(const std::vector<std::string>& parts) const {
    const auto before = entries();
    const Ended ended = run({"run", case_name(), "-o", "answer"});
    BOOST_TEST(ended.status == 2);
    BOOST_TEST(ended.out == "");
    for (const std::string& part : parts) BOOST_TEST(holds(ended.err, part));
    BOOST_TEST(entries() == before, boost::test_tools::per_element());
  }

  /// The example with one of its values spoilt.
  void refuse(const std::string& from, const std::string& to,
              std::vector<std::string> parts) const {
    const std::string sound = case_text(), spoilt = replaced(sound, from, to);
    BOOST_TEST_CONTEXT(to) {
      write_case(spoilt);
      parts.push_back("crossgrain: error: " + place_of(spoilt, to) + ": ");
      refuse_with(parts);
    }
    write_case(sound);
  }
};

const std::string foot = "name = \"foot on the hose\"\nfaces = { name = \"branch\" }";
std::string foot_on(const std::string& faces) {
  return "name = \"foot on the hose\"\nfaces = " + faces;
}

}  // namespace

BOOST_FIXTURE_TEST_SUITE(bad_case, Tee)

BOOST_AUTO_TEST_CASE(a_missing_case_is_named) {
  const Ended ended = run({"run", "none.toml"});

  BOOST_TEST(ended.status == 2);
  BOOST_TEST(holds(ended.err, "none.toml: no such case file; check the path"));
  BOOST_TEST(holds(run({"directions", "none.toml"}).err, "none.toml: no such case file"));
}

BOOST_AUTO_TEST_CASE(keys_units_and_numbers_are_refused_where_they_stand) {
  refuse("duration =", "durration =", {"unknown key 'durration'; did you mean 'duration'?"});
  refuse("value = \"3 bar\"", "value = 3", {"value = 3: a bare number has no unit", "\"3 MPa\""});
  refuse("\"3 bar\"", "\"3\"", {"the unit is missing"});
  refuse("\"3 bar\"", "\"3 mm\"", {"[[pressure]] value: \"3 mm\"", "MPa"});
  refuse("\"3 bar\"", "\"nan bar\"", {"[[pressure]] value: \"nan bar\""});
  refuse("\"3 bar\"", "\"inf bar\"", {"[[pressure]] value: \"inf bar\""});
  refuse("safety_factor = 3", "safety_factor = 0", {"must be greater than zero"});
  refuse("safety_factor = 3", "safety_factor = nan", {"must be a finite number"});
  refuse("cycles = 2000", "cycles = -2000", {"cycles = -2000: must be 1 or greater"});
  refuse("inner_radius = \"11 mm\"", "inner_radius = \"-11 mm\"", {"must be greater than zero"});
  refuse("print_direction = \"+z\"", "print_direction = [0, 0, 0]",
         {"a direction of zero length; write which way"});
}

BOOST_AUTO_TEST_CASE(an_unknown_card_is_refused_with_the_nearest) {
  write_case(replaced(case_text(), "material = \"asa\"", "material = \"asaa\""));
  refuse_with({"[[body]] material: unknown material card \"asaa\" (did you mean \"asa\"?)"});
  BOOST_TEST(holds(run({"material", "asaa"}).err, "did you mean \"asa\"?"));
  BOOST_TEST(run({"material", "asaa"}).status == 2);
}

BOOST_AUTO_TEST_CASE(a_choice_of_faces_finds_what_it_says) {
  const auto refuse_choice = [&](const std::string& choice, const std::string& message) {
    const std::string sound = case_text();
    write_case(replaced(sound, foot, foot_on(choice)));
    refuse_with({place_of(case_text(), choice) + ": " + choice + ": " + message});
    write_case(sound);
  };

  refuse_choice("{ name = \"brunch\" }", "no face or body has this name; did you mean 'branch'?");
  refuse_choice("{ hole = \"23 mm\" }",
                "no such hole; there are 1 of 22 mm along x, 1 of 18 mm along z; correct the "
                "diameter or the axis");
  refuse_choice("{ plane = \"+x\", at = \"12 mm\" }",
                "no flat face there; those that look that way are at 55 mm");
  refuse_choice("{ ids = [99] }", "there is no face 99; the part has faces 1 to 9");
  refuse_choice("{ hole = \"22 mm\", axis = \"x\", count = 3 }", "found 1, not 3: hole 1");
  refuse_choice("{ ids = [4, 8], count = 1 }", "found 2, not 1: face 4");
}

BOOST_AUTO_TEST_CASE(a_wrong_choice_and_an_unknown_card_are_told_before_the_part_is_meshed) {
  const std::string unmeshable = case_text() + "file = \"pipe-tee.step\"\n";
  write_case(unmeshable);
  refuse_with({"pipe-tee.step: is not a mesh of this part"});
  write_case(replaced(unmeshable, foot, foot_on("{ ids = [99] }")));
  refuse_with({"{ ids = [99] }: there is no face 99"});
  write_case(replaced(unmeshable, "material = \"asa\"", "material = \"asaa\""));
  refuse_with({"unknown material card"});
}

BOOST_AUTO_TEST_CASE(a_fluid_that_gets_out_is_shown_the_way_it_takes) {
  write_case(
      replaced(case_text(), "  { name = \"branch\", faces = { name = \"branch\" } },\n", ""));
  refuse_with({"the fluid gets out of the body: face ", "-> face 8 \"branch\"",
               "name the face at which it is to stop on this way"});
}

BOOST_AUTO_TEST_CASE(loads_that_nothing_holds_are_refused_with_their_resultant) {
  const std::string text = case_text();
  const std::size_t from = text.find("# The run lies in two clamps.");
  write_case(text.substr(0, from) + text.substr(text.find("[[load_case]]")));
  refuse_with(
      {"load case 'working' is not balanced and nothing holds the part against it: resultant "
       "force (0, 0, -80) N",
       "Add a support, or the missing load"});
}

BOOST_AUTO_TEST_CASE(conditions_that_the_material_does_not_stand_are_refused) {
  write_case(replaced(case_text(), "\"40 degC\"", "\"140 degC\""));
  refuse_with(
      {"140 degC is too close to the glass transition of 100 degC", "lower the temperature"});
}

BOOST_AUTO_TEST_CASE(runs_that_are_none_are_not_compared) {
  const Ended ended = run({"compare", "here", "there"});

  BOOST_TEST(ended.status == 2);
  BOOST_TEST(holds(ended.err, "cannot be read; give the directory of a finished run"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
