// SPDX-License-Identifier: GPL-3.0-or-later
// Bodies that touch and are joined by what the case says, not by being one.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/examples/program.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/json_schema.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;
using nlohmann::json;

/// A base with a step and a lid that lies on both its levels, 20 x 20 mm, in files of their own.
class SteppedPair {
 public:
  SteppedPair() {
    parts::write_step({{fuse(block(20, 20, 10), {block(20, 10, 15)}), "base", {}, {}}},
                      folder_.path() / "base.step");
    parts::write_step(
        {{fuse(block(20, 20, 5, 0, 0, 5), {block(20, 10, 10, 0, 10, 0)}), "lid", {}, {}}},
        folder_.path() / "lid.step");
  }

  /// The summary of a pull of 400 N along z, with these joints between the bodies.
  json pulled(const std::string& joints) const { return answer("run", joints); }

  /// What a command prints of that.
  /// @param base, lid  their print directions.
  json answer(const std::string& command, const std::string& joints,
              const std::string& base = "\"+z\"", const std::string& lid = "\"+z\"") const {
    folder_.file("pair.toml", R"([[body]]
step_file = "base.step"
material = "petg"
print_direction = )" + base + R"(
[[body]]
step_file = "lid.step"
material = "petg"
print_direction = )" + lid + R"(
shift = ["0 mm", "0 mm", "1 cm"]
[[force]]
name = "pull"
faces = { plane = "+z", at = "20 mm" }
force = ["0 N", "0 N", "400 N"]
[[support]]
name = "floor"
faces = { plane = "-z", at = "0 mm" }
hold = "normal"
[[support]]
name = "left"
faces = { plane = "-x", at = "0 mm" }
hold = "normal"
[[support]]
name = "front"
faces = { plane = "-y", at = "0 mm" }
hold = "normal"
[mesh]
layers = 1
refine_worst_place = false
)" + joints);
    const Ended ended =
        crossgrain({command, "pair.toml", "--json", "-o", command}, {.directory = folder_.path()});
    BOOST_TEST_REQUIRE(json::accept(ended.out), ended.err + ended.out);
    return json::parse(ended.out);
  }
  bool wrote(const std::string& file) const {
    return std::filesystem::exists(folder_.path() / file);
  }

 private:
  TemporaryDirectory folder_;
};

std::string tied(const std::string& name, const std::string& height) {
  return "[[contact]]\nname = \"" + name +
         "\"\nkind = \"tied\"\nfaces = { plane = \"+z\", at = \"" + height +
         "\", body = \"base\" }\nmate = { plane = \"-z\", at = \"-" + height +
         "\", body = \"lid\" }\n";
}

const json& row_of(const json& study, const std::string& name) {
  for (const json& row : study["directions"])
    if (row["name"] == name) return row;
  throw std::runtime_error("no row " + name);
}

std::size_t warnings_of(const json& summary, const std::string& part) {
  std::size_t count = 0;
  for (const std::string warning : summary["warnings"])
    count += warning.find(part) != std::string::npos ? 1 : 0;
  return count;
}

}  // namespace

BOOST_FIXTURE_TEST_SUITE(touching_bodies, SteppedPair)

BOOST_AUTO_TEST_CASE(tied_bodies_of_two_files_carry_what_statics_says) {
  const json summary = pulled(tied("low", "10 mm") + tied("high", "15 mm"));

  const auto working =
      std::find_if(summary["load_cases"].begin(), summary["load_cases"].end(),
                   [](const json& load_case) { return load_case["name"] == "working"; });
  BOOST_TEST_REQUIRE((working != summary["load_cases"].end()));
  // 400 N on 400 mm2 everywhere; the ties give by a hundredth of what one element gives.
  const json& stress = (*working)["safety_factor"]["stress_material_axes_MPa"];
  BOOST_TEST(stress["33"].get<double>() == 1.0, tolerance(0.02));
  BOOST_TEST(summary["bodies"].size() == 2U);
}

BOOST_AUTO_TEST_CASE(faces_that_touch_where_nothing_joins_them_are_a_warning) {
  const json whole = pulled(tied("low", "10 mm") + tied("high", "15 mm"));
  const json half = pulled(tied("low", "10 mm"));

  BOOST_TEST(warnings_of(whole, "touch on 200 mm^2, but nothing joins them") == 0U);
  BOOST_TEST(warnings_of(half, "touch on 200 mm^2, but nothing joins them") == 1U);
}

BOOST_AUTO_TEST_CASE(without_a_gasket_nobody_says_that_it_is_tight) {
  std::string pressing = tied("high", "15 mm");
  pressing.replace(pressing.find("tied"), 4, "unilateral");
  const std::string pressure =
      "[[pressure]]\nname = \"water\"\nvalue = \"2 MPa\"\nfaces = { plane = \"+z\", at = \"20 mm\" "
      "}\n";

  const auto tightness_notes = [](const json& summary) {
    std::size_t count = 0;
    for (const std::string note : summary["notes"])
      count += note.find("whether they are tight is not judged") != std::string::npos ? 1 : 0;
    return count;
  };
  BOOST_TEST(tightness_notes(pulled(tied("low", "10 mm") + pressing + pressure)) == 1U);
  BOOST_TEST(tightness_notes(pulled(tied("low", "10 mm") + pressing)) == 0U);
}

// Ties do not open. They hold to a hundredth of what an element gives, in the mean: at their rims,
// where both prints are weakest, that is some per cent of the factor, which the map has to say.
BOOST_AUTO_TEST_CASE(each_of_two_prints_has_a_map_and_the_best_of_both_is_what_a_run_says_of_it) {
  const std::string joints = tied("low", "10 mm") + tied("high", "15 mm");

  const json study = answer("directions", joints);

  BOOST_TEST(fits_schema(study, "directions.schema.json"));
  BOOST_TEST_REQUIRE(study["maps"].size() == 2U);
  BOOST_TEST(study["directions"].size() == 6U);
  for (const char* print : {"base", "lid"})
    for (const char* ending : {".csv", "_cases.csv", ".svg", ".vtp"})
      BOOST_TEST(wrote(std::string("directions/directions_map_") + print + ending));
  for (const json& map : study["maps"]) {
    for (const json& own : map["own_factors"]) {
      if (own["on_map"] == false || own["others_as_in_case"] == false) continue;
      const double solved = own["safety_factor"], mapped = own["mapped"];
      BOOST_TEST(solved == mapped, tolerance(0.05));
      // Errors are relative to the greater of two factors.
      BOOST_TEST(std::abs(solved - mapped) <=
                 map["error"].get<double>() * std::max(solved, mapped) * (1 + 1e-9));
    }
  }
  const json& together = row_of(study, "best of each");
  BOOST_TEST(together["direction"].is_null());
  BOOST_TEST(together["joint_changes"].empty());
  const json& bodies = together["of_bodies"];
  // A start elsewhere, and a joint solved within a hundredth of what one element gives.
  const json run =
      answer("run", joints, bodies[0]["direction"].dump(), bodies[1]["direction"].dump());
  BOOST_TEST(run["safety_factor"]["value"].get<double>() ==
                 together["safety_factor"]["value"].get<double>(),
             tolerance(1e-3));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
