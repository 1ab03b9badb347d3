// SPDX-License-Identifier: GPL-3.0-or-later
#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "tests/support/json_schema.h"
#include "tests/tools/synthetic_run.h"
#include "tools/results/direction_map_text.h"
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

BOOST_AUTO_TEST_CASE(a_map_is_told_with_its_error_and_drawn) {
  map.emplace();
  map->directions.resize(3, 2);
  map->directions << 0, 1, 0, 0, 1, 0;
  map->factors.resize(2);
  for (int d = 0; d < 2; ++d) {
    map->factors[d].factor = 2.0 + d;
    map->factors[d].on_all_loads[FailureMode::interlayer] = 2.0 + d;
    trade_offs.push_back({map->directions.col(d), 2.0 + d, {}, d == 1});
  }
  map->error = 0.034;
  map->solved = 60;
  map->best = 1;
  map->worst = 0;
  map->refined = {1, 0, 0};

  BOOST_TEST(
      fits_schema(nlohmann::json::parse(directions_json(outputs())), "directions.schema.json"));
  const std::string text = directions_markdown(outputs(), parse_reading_units("bar"));
  BOOST_TEST(text.find("3.4 %") != std::string::npos);
  BOOST_TEST(text.find("budget") != std::string::npos);
  BOOST_TEST(text.find("1 of 2 directions") != std::string::npos);
  const std::string csv = direction_map_csv(outputs(), *map);
  BOOST_TEST(csv.find("1,0,0,3,,,3,,0,0,0,0,0,1\r\n") != std::string::npos);
  const std::string picture = direction_map_picture(outputs(), *map);
  BOOST_TEST(picture.find("=upright| 4") != std::string::npos);
  // The weakest and the strongest end of the colours are both on the disc.
  BOOST_TEST(picture.find("fill=\"#440154\"") != std::string::npos);
  BOOST_TEST(picture.find("fill=\"#fde725\"") != std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()
