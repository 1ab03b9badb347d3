// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/starter/starter_case.h"

#include <boost/test/unit_test.hpp>
#include <fstream>

#include "cases/face_choice/face_choice.h"
#include "cases/starter/starter_words.h"
#include "mesh/meshing.h"
#include "tests/cases/case_text.h"

// Expected guesses are the intent of the parts, as tools/parts draws them.
using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

struct Started {
  CaseFile read;
  std::string text;
  Geometry geometry;
  Features features;
};

Started started(const std::string& name) {
  const auto file =
      std::filesystem::path(CROSSGRAIN_SOURCE_DIR) / "cases" / "examples" / name / (name + ".step");
  Started result;
  const Geometry all = import_step(StepSource{file, 1.0, {}});
  result.text = starter_case(all, find_features(all), "part.step", "petg");
  result.read = case_from(result.text);
  const std::string body = result.read.bodies[0].name;
  result.geometry = import_step(StepSource{
      file, 1.0, body.empty() ? std::vector<std::string>{} : std::vector<std::string>{body}});
  result.features = find_features(result.geometry);
  return result;
}

ChosenFaces resolved(const Started& start, const FaceChoice& choice) {
  return choose_faces(start.geometry, start.features, choice);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(starter)

BOOST_AUTO_TEST_CASE(a_bowl_starts_with_water_screws_and_a_gasket) {
  const Started bowl = started("filter-housing");

  BOOST_TEST(bowl.read.bodies[0].name == "bowl");
  const ChosenFaces wet = resolved(bowl, bowl.read.pressures.at(0).faces);
  BOOST_REQUIRE(wet.wetted.has_value());
  BOOST_TEST(wet.wetted->openings.size() == 1u);
  const BoltSpec& screws = bowl.read.bolts.at(0);
  BOOST_TEST(screws.size == "M5");
  BOOST_TEST(resolved(bowl, screws.thread).holes.size() == 8u);
  BOOST_TEST(!resolved(bowl, bowl.read.gaskets.at(0).faces).faces.empty());
  BOOST_TEST(bowl.read.hand_calculation.inner_radius == 30.0, tolerance(1e-6));
  BOOST_TEST(bowl.read.hand_calculation.wall == 6.5, tolerance(1e-6));
  BOOST_TEST(bowl.read.supports.empty());
}

BOOST_AUTO_TEST_CASE(a_tee_starts_with_its_three_ports_by_name) {
  const Started tee = started("pipe-tee");

  const auto& wetted = tee.read.pressures.at(0).faces.wetted;
  BOOST_REQUIRE(wetted.has_value());
  std::vector<std::string> names = wetted->stop_names;
  std::sort(names.begin(), names.end());
  BOOST_TEST(names == (std::vector<std::string>{"branch", "inlet", "outlet"}));
  BOOST_TEST(resolved(tee, tee.read.pressures[0].faces).wetted->openings.size() == 3u);
  BOOST_TEST(tee.read.hand_calculation.inner_radius == 11.0, tolerance(1e-6));
}

BOOST_AUTO_TEST_CASE(a_block_with_through_holes_is_held_by_them) {
  const Started block = started("manifold-block");

  BOOST_TEST(resolved(block, block.read.pressures.at(0).faces).wetted->openings.size() == 5u);
  BOOST_TEST(resolved(block, block.read.supports.at(0).faces).holes.size() == 2u);
  BOOST_TEST(block.read.bolts.empty());
}

BOOST_AUTO_TEST_CASE(a_lid_starts_with_something_that_resolves) {
  const Started lid = started("vacuum-lid");

  BOOST_TEST(!resolved(lid, lid.read.pressures.at(0).faces).faces.empty());
}

BOOST_AUTO_TEST_CASE(guesses_are_marked) {
  const Started bowl = started("filter-housing");
  std::size_t marks = 0;
  for (auto at = bowl.text.find("check this"); at != std::string::npos;
       at = bowl.text.find("check this", at + 1)) {
    ++marks;
  }

  // Head, body, material, direction, conditions, cavity, pressure, holes, size, preload, gasket,
  // hand calculation.
  BOOST_TEST(marks >= 12u);
}

BOOST_AUTO_TEST_CASE(a_block_without_any_hollow_is_loaded_and_held) {
  Geometry block;
  block.files = {{"block.step", "millimetre", 1.0}};
  Body body{};
  body.id = BodyId{1};
  for (int i = 0; i < 6; ++i) {
    CadFace face{};
    face.id = FaceId{i + 1};
    face.body = body.id;
    face.kind = SurfaceKind::plane;
    face.area = 100.0 + (i == 4);
    face.axis = (i % 2 ? -1.0 : 1.0) * Eigen::Vector3d::Unit(i / 2);
    face.origin = face.centroid = 5.0 * face.axis;
    block.faces.push_back(face);
    body.faces.push_back(face.id);
  }
  body.shells = {body.faces};
  block.bodies = {body};

  const CaseFile read = case_from(starter_case(block, {}, "part.step", "petg"));

  BOOST_TEST((choose_faces(block, {}, read.pressures.at(0).faces).faces.at(0) == FaceId{5}));
  BOOST_TEST((choose_faces(block, {}, read.supports.at(0).faces).faces.at(0) == FaceId{6}));
}

BOOST_AUTO_TEST_CASE(names_with_quotes_and_control_characters_survive) {
  BOOST_TEST(quoted("a\"b\\c\n") == "\"a\\\"b\\\\c\\u000A\"");
}

BOOST_AUTO_TEST_SUITE_END()
