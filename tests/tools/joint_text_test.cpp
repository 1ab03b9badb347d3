// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/support/json_schema.h"
#include "tests/tools/synthetic_run.h"
#include "tools/results/joint_csv.h"
#include "tools/results/joint_forces_svg.h"
#include "tools/results/summary_json.h"
#include "tools/results/summary_text.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using nlohmann::json;

namespace {

/// On one line, since a line may end anywhere.
std::string words_of(const SyntheticRun& run, const ReadingUnits& units = {}) {
  std::string text = summary_text(run.outputs(), units);
  std::ranges::replace(text, '\n', ' ');
  for (std::size_t at = 0; (at = text.find("  ", at)) != std::string::npos;) text.erase(at, 1);
  return text;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// Sound at any torque from 1.6 to 2.6 N m.
SyntheticRun sound_run() {
  SyntheticRun run;
  JudgedJoint& joint = *run.result.joint;
  joint.lines[0].value = 0.7;
  joint.window->lowest->torque = 0.8;
  joint.window->lowest->extrapolated = false;
  joint.window->highest->torque = 1.3;
  joint.by_temperature = {{296.15, *joint.window}};
  joint.openers.clear();
  return run;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(joint_text)

BOOST_AUTO_TEST_CASE(a_run_without_a_joint_says_nothing_of_one) {
  SyntheticRun run;
  run.result.joint.reset();

  BOOST_TEST(!holds(words_of(run), "The joint"));
  BOOST_TEST(json::parse(summary_json(run.outputs()))["joint"].is_null());
}

BOOST_AUTO_TEST_CASE(what_fails_is_said_with_its_place_its_limit_and_what_helps) {
  const std::string text = words_of(SyntheticRun());

  BOOST_TEST(holds(text, "**The joint does not hold.**"));
  BOOST_TEST(holds(text,
                   "| seal under pressure: **no** | 'lid seal' | 0.3 MPa | at least 0.6 MPa "
                   "| 200 % | after losses, least preload | a standard's |"));
  BOOST_TEST(holds(text, "it takes at least 0.6 MPa"));
  BOOST_TEST(
      holds(text, "It gives way first towards a screw hole. Look at (12.0, -3.5, 40.0) mm."));
  BOOST_TEST(holds(text, "What helps: more screws closer together"));
  BOOST_TEST(holds(text,
                   "| insert pulled out | 'lid screws' | 1700 N | at most 2000 N | 85 % | "
                   "tightening, greatest preload | estimated |"));
}

BOOST_AUTO_TEST_CASE(an_empty_window_says_what_it_would_take_what_it_stands_and_what_opens_it) {
  const std::string text = words_of(SyntheticRun());

  BOOST_TEST(holds(text, "**No torque does it**"));
  BOOST_TEST(holds(text,
                   "8 screws of 'lid screws' would need 3.2 N m (seal under pressure of 'lid "
                   "seal', after losses; beyond the preloads that were solved for, run the "
                   "case again with it) and stand 1.8 N m (insert pulled out of 'lid "
                   "screws', tightening)."));
  BOOST_TEST(holds(text, "More screws: yes, about 15 in place of 8, evenly spread."));
}

BOOST_AUTO_TEST_CASE(an_open_window_is_given_in_newton_metres_beside_what_was_asked_for) {
  const std::string text = words_of(sound_run());

  BOOST_TEST(holds(text, "The joint holds in every state that was looked at."));
  BOOST_TEST(
      holds(text, "8 screws of 'lid screws': from 1.6 N m to 2.6 N m; asked for are 2 N m."));
  BOOST_TEST(holds(text, "More than that: insert pulled out of 'lid screws', tightening."));
  BOOST_TEST(!holds(text, "would make room"));
}

BOOST_AUTO_TEST_CASE(without_a_torque_the_window_is_one_of_preloads) {
  SyntheticRun run = sound_run();
  run.result.joint->groups[0].torque.reset();

  BOOST_TEST(holds(words_of(run), "from 960 N of preload to 1560 N of preload"));
}

BOOST_AUTO_TEST_CASE(windows_of_several_temperatures_stand_one_by_one) {
  SyntheticRun run = sound_run();
  TorqueWindow hot = *run.result.joint->window;
  hot.highest->torque = 1.1;
  run.result.joint->by_temperature.push_back({333.15, hot});

  BOOST_TEST(holds(words_of(run), "23 °C, 'lid screws': 1.6 N m to 2.6 N m"));
  BOOST_TEST(holds(words_of(run), "60 °C, 'lid screws': 1.6 N m to 2.2 N m"));
}

BOOST_AUTO_TEST_CASE(pressures_are_read_in_the_unit_asked_for_and_stay_MPa_for_scripts) {
  const SyntheticRun run;

  BOOST_TEST(holds(words_of(run, parse_reading_units("bar")), "| 3 bar | at least 6 bar |"));
  const json joint = json::parse(summary_json(run.outputs()))["joint"];
  BOOST_TEST(joint["lines"][0]["value"] == 0.3);
  BOOST_TEST(joint["lines"][0]["unit"] == "MPa");
  BOOST_TEST(joint["lines"][0]["used"] == 2.0);
  BOOST_TEST(joint["lines"][0]["holds"] == false);
  BOOST_TEST(joint["torque_window"]["lowest"]["over_nominal"] == 1.6);
  BOOST_TEST(joint["torque_window"]["empty"] == true);
  BOOST_TEST(joint["holds"] == false);
}

BOOST_AUTO_TEST_CASE(the_history_has_every_screw_and_station_of_every_state) {
  const SyntheticRun run;

  const json history = json::parse(summary_json(run.outputs()))["joint"]["history"];
  BOOST_TEST(history["screws"][0]["angle_deg"][1] == 180.0);
  BOOST_TEST(history["seals"][0]["angle_deg"][0] == 45.0);
  BOOST_TEST(history["states"][1]["screw_force_N"][0][1] == 655.0);
  BOOST_TEST(history["states"][1]["contact_MPa"][0][3] == 0.3);
  BOOST_TEST(history["states"][0]["flange_bow_mm"][0][1].get<double>() == 0.06,
             boost::test_tools::tolerance(1e-12));
  BOOST_TEST(history["states"][1]["flange_bow_mm"][0].empty());

  std::istringstream rows(joint_csv(run.result.joint->history));
  std::vector<std::string> lines;
  for (std::string line; std::getline(rows, line);) lines.push_back(line);
  BOOST_TEST_REQUIRE(lines.size() == 1u + 2u * (2u + 4u) + 2u);
  BOOST_TEST(lines[1] == "tightening,least,0.67,296.15,0,screw force,lid screws,1,12,0,40,800,N");
  BOOST_TEST(
      lines[7].starts_with("tightening,least,0.67,296.15,0,flange bow,lid seal,1,0,9,40,0.05"));
  BOOST_TEST(lines[14].ends_with(",0.3,MPa"));
}

BOOST_AUTO_TEST_CASE(the_plot_has_every_screw_at_its_force) {
  const SyntheticRun run;

  const std::string svg = joint_forces_svg(run.result.joint->history);

  BOOST_TEST(holds(svg, "Force of the 2 screws of &apos;lid screws&apos;, N"));
  for (const char* state : {">tightening<", ">after losses<"}) BOOST_TEST(holds(svg, state));
  // 810 N is reached in ticks of 200 N, so that 1000 N are 280 units high; zero lies at 340: 800,
  // 810, 640 and 655 N by hand.
  for (const char* height : {"116.0", "113.2", "160.8", "156.6"})
    BOOST_TEST(holds(svg, std::string("cy=\"") + height + "\""));
  BOOST_TEST(holds(svg, ">1000<"));
  BOOST_TEST(!holds(svg, ">1200<"));
  BOOST_TEST(!holds(svg, "greatest preload"));  // no state of it
}

BOOST_AUTO_TEST_CASE(a_seal_without_contact_has_nothing_left) {
  SyntheticRun run;
  run.result.joint->lines[0].value = 0.0;

  BOOST_TEST(holds(words_of(run), "| nothing left |"));
  const json summary = json::parse(summary_json(run.outputs()));
  BOOST_TEST(summary["joint"]["lines"][0]["used"].is_null());
  BOOST_TEST(fits_schema(summary, "summary.schema.json"));
}

BOOST_AUTO_TEST_SUITE_END()
