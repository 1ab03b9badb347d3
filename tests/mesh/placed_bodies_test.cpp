// SPDX-License-Identifier: GPL-3.0-or-later
// Bodies of several STEP files, each in its place.
#include <algorithm>
#include <cmath>

#include "mesh/meshing.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;
using Eigen::Vector3d;

constexpr double exact = 1e-9;  // the STEP file's 15 digits

ImportOptions files(const std::vector<StepSource>& sources) {
  ImportOptions options;
  options.files = sources;
  return options;
}

StepSource placed(const StepFile& file, const Placement& placement) {
  StepSource source = file.import();
  source.placement = placement;
  return source;
}

Box box_of(const StepFile& file, const Placement& placement) {
  return import_step(placed(file, placement)).box;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(placed_bodies)

BOOST_AUTO_TEST_CASE(bodies_and_faces_are_numbered_on_from_file_to_file) {
  const StepFile cube(block(10, 10, 10)), pipe({{tube(8, 5, 20), "pipe", {}, {}}});

  const Geometry geometry =
      import_step(files({cube.import(), placed(pipe, {.shift = {50, 0, 0}})}));

  BOOST_REQUIRE(geometry.files.size() == 2u);
  BOOST_REQUIRE(geometry.bodies.size() == 2u);
  const Body& second = geometry.bodies[1];
  BOOST_TEST(number(second.id) == 2);
  BOOST_TEST(second.name == "pipe");
  BOOST_TEST(geometry.path_of(second) == pipe.path().string());
  BOOST_TEST(geometry.faces.size() == 10u);
  BOOST_TEST(number(second.faces.front()) == 7);
  BOOST_TEST(second.volume == M_PI * (64 - 25) * 20, tolerance(exact));
  BOOST_TEST(near(second.centroid, Vector3d(50, 0, 10), exact));
}

BOOST_AUTO_TEST_CASE(a_turn_is_right_handed_about_its_axis) {
  const StepFile file(block(10, 20, 30));

  // By a third about the diagonal x becomes y, y becomes z and z becomes x.
  const Box box = box_of(file, {.axis = {1, 1, 1}, .angle = 2.0 * M_PI / 3.0});

  BOOST_TEST(near(box.high, Vector3d(30, 10, 20), exact));
}

BOOST_AUTO_TEST_CASE(a_body_is_turned_about_the_point_given_and_then_shifted) {
  const StepFile file(block(10, 20, 30));

  const Box box = box_of(
      file, {.axis = {0, 0, 2}, .angle = M_PI / 2.0, .about = {10, 0, 0}, .shift = {100, 0, 1}});

  // (0, 0) comes to (10, -10), (10, 20) to (-10, 0); then the shift.
  BOOST_TEST(near(box.low, Vector3d(90, -10, 1), exact));
  BOOST_TEST(near(box.high, Vector3d(110, 0, 31), exact));
}

BOOST_AUTO_TEST_CASE(faces_turn_with_their_body) {
  const StepFile file(cut(block(30, 30, 20), {rod({15, 15, 5}, {0, 0, 1}, 16, 30)}));

  const Geometry geometry =
      import_step(placed(file, {.axis = {1, 0, 0}, .angle = M_PI / 2.0, .shift = {0, 0, 7}}));

  const auto bore =
      std::find_if(geometry.faces.begin(), geometry.faces.end(),
                   [](const CadFace& face) { return face.kind == SurfaceKind::cylinder; });
  BOOST_REQUIRE((bore != geometry.faces.end()));
  BOOST_TEST(std::abs(bore->axis.y()) == 1.0, tolerance(exact));
  BOOST_TEST(bore->origin.x() == 15.0, tolerance(exact));
  BOOST_TEST(bore->origin.z() == 22.0, tolerance(exact));
  // The triangles that rays and choices of faces see.
  const Eigen::Matrix3Xd& points = geometry.surface.points;
  BOOST_TEST(near(Vector3d(points.rowwise().maxCoeff()), geometry.box.high, 1e-6));
}

BOOST_AUTO_TEST_CASE(a_scale_goes_before_the_place) {
  const StepFile file(block(1, 2, 3));
  StepSource source = placed(file, {.shift = {5, 0, 0}});
  source.scale = 10.0;

  const Box box = import_step(source).box;

  BOOST_TEST(near(box.low, Vector3d(5, 0, 0), exact));
  BOOST_TEST(near(box.high, Vector3d(15, 20, 30), exact));
}

BOOST_AUTO_TEST_CASE(names_that_files_share_are_told_apart) {
  const StepFile one(block(10, 10, 10)), two(block(10, 10, 10));

  const Geometry geometry = import_step(files(
      {one.import(), placed(two, {.shift = {20, 0, 0}}), placed(two, {.shift = {40, 0, 0}})}));

  BOOST_TEST(geometry.bodies[0].name == "part/part");
  BOOST_TEST(geometry.bodies[1].name == "part-2/part");
  BOOST_TEST(geometry.bodies[2].name == "part-3/part");
  BOOST_TEST(geometry.bodies[2].name_in_file == "part");
}

BOOST_AUTO_TEST_CASE(names_of_bodies_left_out_are_free) {
  const StepFile pair({{block(10, 10, 10), "cup", {}, {}}, {block(5, 5, 5, 20), "peg", {}, {}}});
  StepSource cups = pair.import(), pegs = placed(pair, {.shift = {0, 50, 0}});
  cups.bodies = {"cup"};
  pegs.bodies = {"peg"};

  const Geometry geometry = import_step(files({cups, pegs}));

  BOOST_TEST(geometry.bodies[0].name == "cup");
  BOOST_TEST(geometry.bodies[1].name == "part/peg");
  BOOST_TEST(geometry.bodies[2].name == "part-2/cup");
  BOOST_TEST(geometry.bodies[3].name == "peg");
}

BOOST_AUTO_TEST_CASE(bodies_are_chosen_by_the_names_in_their_own_file) {
  const StepFile pair({{block(10, 10, 10), "cup", {}, {}}, {block(5, 5, 5, 20), "peg", {}, {}}});
  StepSource pegs = placed(pair, {.shift = {0, 50, 0}});
  pegs.bodies = {"peg"};
  StepSource wrong = pair.import();
  wrong.bodies = {"lid"};

  const Geometry geometry = import_step(files({pair.import(), pegs}));

  BOOST_TEST(geometry.bodies[0].modelled);
  BOOST_TEST(geometry.bodies[1].modelled);
  BOOST_TEST(!geometry.bodies[2].modelled);
  BOOST_TEST(geometry.bodies[3].modelled);
  BOOST_TEST(refused(
      [&] {
        import_step(files({pegs, wrong}));
      },
      "no body is named \"lid\"; the bodies are \"cup\", \"peg\""));
}

BOOST_AUTO_TEST_CASE(a_place_that_is_none_is_refused_with_its_file) {
  const StepFile file(block(10, 20, 30));
  const struct {
    Placement placement;
    const char* message;
  } cases[] = {
      {{.axis = Vector3d::Zero(), .angle = 1.0}, "the axis (0, 0, 0) needs a direction"},
      {{.angle = std::nan("")}, "turn by nan rad must be a finite angle"},
      {{.about = {0, HUGE_VAL, 0}}, "turn about (0, inf, 0) mm must be three finite lengths"},
      {{.shift = {0, 0, std::nan("")}}, "shift (0, 0, nan) mm must be three finite lengths"},
  };
  for (const auto& [placement, message] : cases) {
    BOOST_TEST(
        refused([&, place = placement] { box_of(file, place); }, file.path().string() + ": "));
    BOOST_TEST(refused([&, place = placement] { box_of(file, place); }, message));
  }
  BOOST_TEST(refused([] { import_step(ImportOptions{}); }, "no STEP file is given"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
