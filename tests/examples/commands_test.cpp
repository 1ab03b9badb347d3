// SPDX-License-Identifier: GPL-3.0-or-later
// The commands as a newcomer meets them, on the smallest example.
#include <boost/test/unit_test.hpp>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/examples/example_case.h"
#include "tests/support/json_schema.h"

namespace crossgrain::testing {
namespace {

using nlohmann::json;

struct Tee : ExampleCopy {
  Tee() : ExampleCopy("pipe-tee") {}

  json json_of(const std::vector<std::string>& arguments) const {
    const Ended ended = run(arguments);
    BOOST_TEST(ended.status < 2);
    BOOST_TEST_REQUIRE(json::accept(ended.out), ended.err + ended.out);
    return json::parse(ended.out);
  }
};

}  // namespace

BOOST_FIXTURE_TEST_SUITE(commands, Tee)

BOOST_AUTO_TEST_CASE(help_names_every_command_and_exit_status) {
  const Ended help = run({"--help"});

  BOOST_TEST(help.status == 0);
  for (const char* word :
       {"inspect", "begin", "run", "directions", "material", "compare", "0 pass"}) {
    BOOST_TEST(holds(help.out, word));
  }
  for (const char* command : {"inspect", "begin", "run", "directions", "material", "compare"})
    BOOST_TEST(run({command, "--help"}).status == 0);
  BOOST_TEST(holds(run({"run", "--help"}).out, "--threads"));
}

BOOST_AUTO_TEST_CASE(the_version_is_one_line) {
  const Ended version = run({"--version"});

  BOOST_TEST(version.status == 0);
  BOOST_TEST(version.out.rfind("crossgrain ", 0) == 0U);
  BOOST_TEST(version.out.find('\n') == version.out.size() - 1);
}

BOOST_AUTO_TEST_CASE(what_is_typed_wrong_is_the_users_and_says_where_to_look) {
  for (const std::vector<std::string>& words : {std::vector<std::string>{},
                                                {"runs", case_name()},
                                                {"run"},
                                                {"run", case_name(), "--json5"}}) {
    const Ended ended = run(words);
    BOOST_TEST(ended.status == 2);
    BOOST_TEST(holds(ended.err, "--help"));
    BOOST_TEST(ended.out == "");
  }
  BOOST_TEST(holds(run({"run", case_name(), "--units", "kPa"}).err, "kPa"));
  BOOST_TEST(holds(run({"run", case_name(), "--threads", "-1"}).err, "-1"));
  BOOST_TEST(holds(run({"inspect", "pipe-tee.step", "--fluid-at", "0", "0", "nan"}).err, "nan"));
  BOOST_TEST(entries().size() == 2U);
}

BOOST_AUTO_TEST_CASE(inspect_shows_what_the_part_is) {
  const Ended text = run({"inspect", "pipe-tee.step"});
  const json part = json_of({"inspect", "pipe-tee.step", "--json"});

  BOOST_TEST(text.status == 0);
  BOOST_TEST(holds(text.out, "110 x 32 x 66 mm"));  // 110 mm run, outside 32 mm, branch to z = 50
  BOOST_TEST(holds(text.out, "branch"));
  BOOST_TEST(!holds_exponent(text.out));
  BOOST_TEST(part["bodies"].size() == 1U);
  BOOST_TEST(part["holes"].size() == 2U);
  BOOST_TEST(part["faces"].size() == 9U);
}

BOOST_AUTO_TEST_CASE(inspect_shows_the_bodies_of_an_unfinished_case_in_their_places) {
  const std::string tee =
      "[[body]]\nstep_file = \"pipe-tee.step\"\nmaterial = \"petg\"\nprint_direction = \"+z\"\n";
  std::ofstream(directory() / "two.toml") << tee + tee + "shift = [\"1 m\", \"0 mm\", \"0 mm\"]\n";
  const json one = json_of({"inspect", "pipe-tee.step", "--json"});

  const json two = json_of({"inspect", "two.toml", "--json"});

  BOOST_TEST(two["file"] == "two.toml");
  BOOST_TEST(two["bodies"].size() == 2U);
  BOOST_TEST(two["faces"].size() == 2 * one["faces"].size());
  BOOST_TEST(two["bodies"][1]["name"] ==
             "pipe-tee-2/" + one["bodies"][0]["name"].get<std::string>());
  const double x = one["bodies"][0]["centroid_mm"][0], shifted = two["bodies"][1]["centroid_mm"][0];
  BOOST_TEST(shifted - x == 1000.0, boost::test_tools::tolerance(1e-9));  // digits of the file
  BOOST_TEST(holds(run({"inspect", "two.toml", "--scale", "2"}).err, "write scale in [[body]]"));
}

BOOST_AUTO_TEST_CASE(inspect_follows_a_fluid_to_the_faces_that_stop_it) {
  const json part = json_of({"inspect", "pipe-tee.step", "--json"});
  std::vector<std::string> words{"inspect", "pipe-tee.step", "--json", "--fluid-at", "0", "0",
                                 "0",       "--stop"};
  for (const json& face : part["faces"]) {
    if (face["name"] != "") words.push_back(std::to_string(face["id"].get<int>()));
  }

  const json wetted = json_of(words)["wetted"];

  BOOST_TEST(wetted["faces"].size() == 2U);
  BOOST_TEST(wetted["openings"].size() == 3U);
}

BOOST_AUTO_TEST_CASE(material_lists_shows_and_checks_cards) {
  const json cards = json_of({"material", "--json"});
  const Ended one = run({"material", "petg"});

  BOOST_TEST(cards.size() >= 10U);
  BOOST_TEST(holds(run({"material"}).out, "petg"));
  BOOST_TEST(holds(one.out, "Estimated"));
  BOOST_TEST(!holds_exponent(one.out + run({"material"}).out));
  BOOST_TEST(json_of({"material", "petg", "--json"})["name"] == "petg");
}

BOOST_AUTO_TEST_CASE(begin_writes_a_case_that_runs_once_its_gaps_are_filled) {
  const Ended begun = run({"begin", "pipe-tee.step", "-o", "first.toml", "--material", "asa"});

  BOOST_TEST(begun.status == 0);
  BOOST_TEST(holds(begun.out, "first.toml written"));
  const std::string starter = content_of(directory() / "first.toml");
  BOOST_TEST(holds(starter, "check this"));
  BOOST_TEST(holds(starter, "material = \"asa\""));
  // What the user knows and the part does not say: the pressure. Everything else is guessed.
  std::ofstream(directory() / "first.toml")
      << replaced(starter, "value = \"1 bar\"", "value = \"3 bar\"") << coarse_mesh;

  const json summary = json_of({"run", "first.toml", "--json"});

  BOOST_TEST(summary["working_pressure_MPa"].get<double>() == 0.3,
             boost::test_tools::tolerance(1e-12));
  BOOST_TEST(summary["openings"].size() == 3U);
  // The bores of the tee as drawn: 22 mm run of 110 mm, 18 mm branch to z = 50 mm. The branch ends
  // on the run's bore; its volume is that of a straight bore from z = 0 less the run's share, which
  // lies between the whole half run's height and none of it.
  const double run_volume = M_PI * 11 * 11 * 110, branch = M_PI * 9 * 9;
  BOOST_TEST(summary["cavity_volume_mm3"].get<double>() > run_volume + branch * (50 - 11));
  BOOST_TEST(summary["cavity_volume_mm3"].get<double>() < run_volume + branch * 50);
  BOOST_TEST(std::filesystem::exists(directory() / "first-results" / "summary.md"));
}

BOOST_AUTO_TEST_CASE(begin_overwrites_nothing) {
  const std::string before = case_text();

  const Ended ended = run({"begin", "pipe-tee.step"});

  BOOST_TEST(ended.status == 2);
  BOOST_TEST(holds(ended.err, "pipe-tee.toml exists and is not overwritten"));
  BOOST_TEST(case_text() == before);
}

BOOST_AUTO_TEST_CASE(directions_are_set_side_by_side) {
  const json study = json_of({"directions", case_name(), "--json", "-o", "study"});

  BOOST_TEST(fits_schema(directory() / "study" / "directions.json", "directions.schema.json"));
  BOOST_TEST(study == json::parse(content_of(directory() / "study" / "directions.json")));
  BOOST_TEST(study["directions"].size() == 3U);
  // As drawn: lying with the branch up it stands 16 + 50 mm high, upright 110 mm.
  for (const json& row : study["directions"]) {
    const double height = row["name"] == "lying, branch up"       ? 66.0
                          : row["name"] == "upright on the inlet" ? 110.0
                                                                  : 32.0;
    BOOST_TEST(row["height_mm"].get<double>() == height, boost::test_tools::tolerance(1e-3));
  }
  BOOST_TEST(std::filesystem::exists(directory() / "study" / "directions.csv"));
}

BOOST_AUTO_TEST_CASE(
    the_direction_of_the_case_has_the_factor_of_its_run_and_what_the_mesh_may_make_of_it) {
  write_case(case_text() + "refine_worst_place = false\n");
  const json summary = json_of({"run", case_name(), "--json", "-o", "once"});
  const json study = json_of({"directions", case_name(), "--json", "-o", "study"});

  const json& as_printed = study["directions"][0];
  BOOST_TEST_REQUIRE((as_printed["direction"] == summary["bodies"][0]["print_direction"]));
  // The same linear systems, solved to a residual of 1e-8 in either; a factor may lose some digits.
  const auto within = boost::test_tools::tolerance(1e-5);
  BOOST_TEST(as_printed["safety_factor"]["value"].get<double>() ==
                 summary["governing"]["value"].get<double>(),
             within);
  BOOST_TEST(as_printed["safety_factor_mesh_error"].get<double>() ==
                 summary["safety_factor_mesh_error"].get<double>(),
             within);
}

BOOST_AUTO_TEST_CASE(two_runs_are_compared_in_the_unit_asked_for) {
  const std::string units[] = {"MPa", "bar", "psi"};
  const Ended first = run({"run", case_name(), "-o", "first", "--units", units[2]});
  write_case(replaced(case_text(), "material = \"asa\"", "material = \"petg\""));
  const Ended second = run({"run", case_name(), "-o", "second", "--quiet"});

  BOOST_TEST(holds(first.out, "43.5 psi"));  // 3 bar; 1 psi = 6894.757 Pa (NIST SP 811, B.8)
  BOOST_TEST(holds(second.out, "0.3 MPa"));
  BOOST_TEST(second.err == "");
  for (const std::string& unit : units) {
    const Ended compared = run({"compare", "first", "second", "--units", unit});
    BOOST_TEST(compared.status == 0);
    BOOST_TEST(holds(compared.out, unit));
    BOOST_TEST(holds(compared.out, "petg"));
    BOOST_TEST(!holds_exponent(compared.out));
  }
  const json comparison = json_of({"compare", "first", "second", "--json"});
  BOOST_TEST_REQUIRE(comparison["settings"].size() == 1U);
  BOOST_TEST(comparison["settings"][0]["first"] == "asa");
  BOOST_TEST(comparison["settings"][0]["second"] == "petg");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
