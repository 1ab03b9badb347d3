// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/starter/starter_case.h"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <fstream>

#include "cases/face_choice/face_choice.h"
#include "cases/face_choice/stated_meetings.h"
#include "cases/starter/starter_words.h"
#include "mesh/meshing.h"
#include "tests/cases/case_text.h"
#include "tests/mesh/simple_parts.h"

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
  std::vector<std::string> named;
  for (const BodySpec& body : result.read.bodies)
    if (!body.name.empty()) named.push_back(body.name);
  result.geometry = import_step(StepSource{file, 1.0, named});
  result.features = find_features(result.geometry);
  return result;
}

ChosenFaces resolved(const Started& start, const FaceChoice& choice) {
  return choose_faces(start.geometry, start.features, choice);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(starter)

BOOST_AUTO_TEST_CASE(a_bowl_and_its_lid_start_with_water_screws_and_the_gasket_between_them) {
  const Started housing = started("filter-housing");
  const Geometry& geometry = housing.geometry;

  BOOST_TEST(housing.read.bodies.size() == 2u);
  BOOST_TEST(housing.read.bodies[0].name == "bowl");
  BOOST_TEST(housing.read.bodies[1].name == "lid");
  // As cases/examples/filter-housing says it: the gasket's edge on both, two taps in the lid.
  const auto wet = choose_faces(geometry, housing.features, housing.read.pressures.at(0).faces);
  const BoltSpec& screws = housing.read.bolts.at(0);
  BOOST_TEST(screws.size == "M5");
  BOOST_TEST(resolved(housing, screws.thread).holes.size() == 8u);
  BOOST_REQUIRE(screws.head_seat.has_value());
  const FaceId seat = resolved(housing, *screws.head_seat).faces.at(0);
  BOOST_TEST(geometry.face(seat).centroid.z() == 18.0, tolerance(1e-6));
  const GasketSpec& gasket = housing.read.gaskets.at(0);
  BOOST_REQUIRE(gasket.between.has_value());
  BOOST_TEST(geometry.face(resolved(housing, gasket.faces).faces.at(0)).name == "gasket ring");
  BOOST_TEST(geometry.face(resolved(housing, gasket.between->mate).faces.at(0)).name ==
             "lid gasket ring");
  BOOST_TEST(gasket.between->shape.thickness == 2.0, tolerance(1e-6));
  BOOST_TEST(gasket.between->shape.width == 6.0, tolerance(1e-3));
  BOOST_TEST(gasket.bolts == screws.name);
  BOOST_TEST(housing.read.gaskets.size() == 1u);
  BOOST_TEST(housing.read.supports.empty());
  // Of both bodies: the bore and what the lid closes it with.
  const auto wets_a_face_of = [&](int body) {
    return std::ranges::any_of(
        wet.faces, [&](FaceId face) { return geometry.face(face).body == BodyId{body}; });
  };
  BOOST_TEST((wets_a_face_of(1) && wets_a_face_of(2)));
}

BOOST_AUTO_TEST_CASE(blocks_that_touch_start_tied_until_screws_press_them) {
  const auto drilled = [](TopoDS_Shape part, double diameter, double from) {
    std::vector<TopoDS_Shape> drills;
    for (const double x : {5.0, 15.0})
      for (const double y : {5.0, 15.0})
        drills.push_back(rod({x, y, from}, {0, 0, 1}, diameter, 30));
    return cut(std::move(part), drills);
  };
  const auto contact_of = [](const TopoDS_Shape& base, const TopoDS_Shape& lid, double meet = 20.0,
                             double top = 28.0) {
    const StepFile file({{base, "base", {}, {}}, {lid, "lid", {}, {}}});
    const Geometry geometry = import_step(file.import());
    const CaseFile read =
        case_from(starter_case(geometry, find_features(geometry), "part.step", "petg"));
    BOOST_REQUIRE(read.contacts.size() == 1u);
    const auto meetings = stated_meetings(read, geometry, find_features(geometry));
    BOOST_TEST(geometry.face(meetings.at(0).faces.at(0)).centroid.z() == meet, tolerance(1e-6));
    BOOST_TEST(geometry.face(meetings.at(0).mate.at(0)).centroid.z() == meet, tolerance(1e-6));
    for (const BoltSpec& bolt : read.bolts) {
      const auto seat = choose_faces(geometry, find_features(geometry), bolt.head_seat.value());
      BOOST_TEST(geometry.face(seat.faces.at(0)).centroid.z() == top, tolerance(1e-6));
    }
    return std::pair(read.contacts[0].kind, read.bolts.size());
  };
  const TopoDS_Shape base = block(20, 20, 20), lid = block(20, 20, 8, 0, 0, 20);

  const auto plain = contact_of(base, lid);
  const auto screwed = contact_of(drilled(base, 5.6, 10.0), drilled(lid, 4.5, 10.0));

  // Screws from below.
  const TopoDS_Shape foot = block(20, 20, 8), body = block(20, 20, 20, 0, 0, 8);
  const auto from_below =
      contact_of(drilled(body, 5.6, -12.0), drilled(foot, 4.5, -12.0), 8.0, 0.0);

  BOOST_TEST((plain == std::pair(ContactKind::tied, std::size_t{0})));
  BOOST_TEST((screwed == std::pair(ContactKind::unilateral, std::size_t{1})));
  BOOST_TEST((from_below == std::pair(ContactKind::unilateral, std::size_t{1})));
}

BOOST_AUTO_TEST_CASE(a_bowl_alone_starts_with_a_gasket_under_a_lid_that_is_not_there) {
  const Started bowl = started("filter-bowl");

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
