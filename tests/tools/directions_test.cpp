// SPDX-License-Identifier: GPL-3.0-or-later
#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "tests/support/json_schema.h"
#include "tests/tools/synthetic_run.h"
#include "tools/results/directions_text.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

struct Study {
  SyntheticRun run;
  std::vector<DirectionRow> rows;
  std::optional<DirectionMap> map;
  std::vector<TradeOff> trade_offs;
  Study() {
    DirectionRow flat{"flat, opening up",
                      {0.0, 0.0, 1.0},
                      {2.0, 1.5, 2.5},
                      run.result.governing,
                      "working",
                      0.3,
                      0.25,
                      40.0,
                      1200.0,
                      600.0,
                      150.0,
                      20.0};
    DirectionRow upright = flat;
    upright.name = "=upright|";
    upright.direction = Eigen::Vector3d(1.0, 0.0, 1.0).normalized();
    upright.factor = {4.0, 3.0, 5.0};
    DirectionRow unlimited = flat;
    unlimited.name = "idle";
    unlimited.factor = {};
    unlimited.governing.reset();
    unlimited.allowable_pressure_MPa.reset();
    rows = {flat, upright, unlimited};
  }
  DirectionOutputs outputs() const {
    return {run.case_file, run.meshed.geometry, run.features, rows, map, trade_offs};
  }
};

}  // namespace

BOOST_FIXTURE_TEST_SUITE(directions, Study)

BOOST_AUTO_TEST_CASE(the_markdown_ranks_them_strongest_first) {
  const std::string text = directions_markdown(outputs(), parse_reading_units("bar"));

  const std::size_t idle = text.find("| idle"), upright = text.find("| =upright\\|"),
                    flat = text.find("| flat");
  BOOST_TEST((idle < upright && upright < flat && flat != std::string::npos));
  BOOST_TEST(text.find("| 3 bar") != std::string::npos);
  BOOST_TEST(text.find("(0.707, 0.000, 0.707)") != std::string::npos);
  BOOST_TEST(text.find("less than 45 degrees") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_json_fits_its_schema_and_keeps_the_order) {
  const auto j = nlohmann::json::parse(directions_json(outputs()));

  BOOST_TEST(fits_schema(j, "directions.schema.json"));
  BOOST_TEST(j["directions"][0]["name"] == "flat, opening up");
  BOOST_TEST(j["directions"][1]["safety_factor"]["low"] == 3.0);
  BOOST_TEST(j["directions"][2]["safety_factor"]["value"].is_null());
  BOOST_TEST(j["directions"][2]["governing"].is_null());
}

BOOST_AUTO_TEST_CASE(the_csv_has_a_field_for_every_column) {
  const std::string csv = directions_csv(outputs());

  BOOST_TEST(csv.find("\r\n\"flat, opening "
                      "up\",0,0,1,2,1.5,2.5,interlayer,working,0.3,0.25,40,1200,600,150,20\r\n") !=
             std::string::npos);
  BOOST_TEST(csv.find("\r\n'=upright|,0.7071067811865") != std::string::npos);
  BOOST_TEST(csv.find("\r\nidle,0,0,1,,,,,working,,0.25,40,1200,600,150,20\r\n") !=
             std::string::npos);
}

BOOST_AUTO_TEST_CASE(all_three_files_are_written) {
  const auto directory = empty_directory("directions");
  write_directions(outputs(), {}, directory);
  for (const char* name : {"directions.md", "directions.csv", "directions.json"}) {
    BOOST_TEST(std::filesystem::file_size(directory / name) > 0U);
  }
}

BOOST_AUTO_TEST_SUITE_END()
