// SPDX-License-Identifier: GPL-3.0-or-later
// A bracket that breaks at its sharp inner edge: the run makes its own finer meshes there.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/examples/program.h"
#include "tests/mesh/simple_parts.h"

namespace crossgrain::testing {
namespace {

/// An angle of 6 mm, glued by its foot, pulled at the top of its arm.
constexpr const char* bracket = R"(title = "Shelf bracket of a drying rack"
[[body]]
step_file = "part.step"
material = "petg"
print_direction = "+y"
bead_width = "2 mm"
[conditions]
temperature = "23 degC"
moisture = "dry"
duration = "1 h"
[[force]]
name = "shelf"
faces = { plane = "+z", at = "30 mm" }
force = ["-60 N", "0 N", "0 N"]
[[support]]
name = "glue"
faces = { plane = "-z", at = "0 mm" }
hold = "all"
[targets]
safety_factor = 2
[mesh]
layers = 1
)";

nlohmann::json summary_of(const std::string& further_keys) {
  const StepFile part(fuse(block(30, 12, 6), {block(6, 12, 30)}));
  const auto folder = part.path().parent_path();
  std::ofstream(folder / "bracket.toml") << bracket << further_keys;
  const Ended ended = crossgrain({"run", "bracket.toml", "-o", "results"}, {.directory = folder});
  BOOST_REQUIRE_MESSAGE(ended.status == 0 || ended.status == 1, ended.err);
  BOOST_TEST_MESSAGE(ended.err << content_of(folder / "results" / "summary.md"));
  return nlohmann::json::parse(content_of(folder / "results" / "summary.json"));
}

BOOST_AUTO_TEST_SUITE(refined_run)

BOOST_AUTO_TEST_CASE(a_sharp_inner_edge_is_named_and_meshed_until_a_bead_is_resolved) {
  const auto coarse = summary_of("refine_worst_place = false\n");
  const auto refined = summary_of("");
  const auto further = summary_of("error = \"8 %\"\n");

  const auto factor = [](const nlohmann::json& summary) {
    return summary["safety_factor"]["value"].get<double>();
  };
  const auto error = [](const nlohmann::json& summary) {
    return summary["safety_factor_mesh_error"].get<double>();
  };
  BOOST_TEST(coarse["governing_place"]["inner_edge"] == refined["governing_place"]["inner_edge"]);
  BOOST_TEST(coarse["governing_place"]["inner_edge"].is_number());
  BOOST_TEST(coarse["mesh"]["passes"].size() == 1U);
  BOOST_TEST(!coarse["governing_place"]["converged"].get<bool>());
  BOOST_TEST(refined["mesh"]["passes"].size() > 1U);
  BOOST_TEST(refined["governing_place"]["converged"].get<bool>());
  BOOST_TEST(refined["mesh"]["refining_ended"] == "");
  // Each is right within what it says of itself, by the finest.
  BOOST_TEST(std::abs(factor(coarse) - factor(further)) < error(coarse));
  BOOST_TEST(std::abs(factor(refined) - factor(further)) < error(refined));
  BOOST_TEST(error(further) <= 0.08 * factor(further));
  BOOST_TEST_MESSAGE(factor(coarse) << " " << factor(refined) << " " << factor(further) << " "
                                    << error(further) << further["mesh"]["passes"].dump());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::testing
