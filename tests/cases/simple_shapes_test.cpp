// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/simple_shapes.h"

#include <boost/test/unit_test.hpp>

#include "cases/face_choice/face_choice.h"
#include "tests/mesh/simple_parts.h"

// Expected sizes are those the parts are drawn with: here, or in tools/parts.
using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

using FaceTest = std::function<bool(const CadFace&)>;

std::vector<SimpleShape> shapes_of(const TopoDS_Shape& part, const FaceTest& pressed) {
  const StepFile file(part);
  const Geometry geometry = import_step(file.import());
  std::vector<FaceId> faces;
  for (const CadFace& face : geometry.faces)
    if (pressed(face)) faces.push_back(face.id);
  return simple_shapes(geometry, faces);
}

/// Of a closed box's two shells the inner one.
std::vector<SimpleShape> shapes_of_hollow(const TopoDS_Shape& part) {
  const StepFile file(part);
  const Geometry geometry = import_step(file.import());
  return simple_shapes(geometry, geometry.bodies.at(0).shells.at(1));
}

std::vector<SimpleShape> shapes_of_example(const std::string& name, const std::string& body) {
  const auto folder = std::filesystem::path(CROSSGRAIN_SOURCE_DIR) / "cases" / "examples" / name;
  const CaseFile read = read_case(folder / (name + ".toml"));
  const Geometry geometry = import_step(
      StepSource{read.bodies[0].step_file, 1.0,
                 body.empty() ? std::vector<std::string>{} : std::vector<std::string>{body}});
  const Features features = find_features(geometry);
  return simple_shapes(geometry, choose_faces(geometry, features, read.pressures[0].faces).faces);
}

bool hollow(const CadFace& face) { return face.hollow; }

}  // namespace

BOOST_AUTO_TEST_SUITE(simple_shapes_suite)

BOOST_AUTO_TEST_CASE(a_bowl_is_a_tube_and_a_flat_bottom) {
  const auto shapes = shapes_of_example("filter-bowl", "bowl");

  BOOST_TEST_REQUIRE(shapes.size() == 2u);
  BOOST_TEST((shapes[0].kind == ShapeKind::cylinder));
  BOOST_TEST(shapes[0].radius == 30.0, tolerance(1e-6));
  BOOST_TEST(shapes[0].wall == 6.5, tolerance(1e-6));
  BOOST_TEST(shapes[0].pressed_inside);
  BOOST_TEST(shapes[0].along_axis.has_value());  // its own bottom closes it
  BOOST_TEST((shapes[1].kind == ShapeKind::round_plate));
  BOOST_TEST(shapes[1].held_by_walls);
  BOOST_TEST(shapes[1].wall == 8.0, tolerance(1e-6));
  BOOST_TEST(shapes[1].radius == 30.0, tolerance(1e-6));  // past the fillet, to the wall itself
}

BOOST_AUTO_TEST_CASE(a_tee_is_two_tubes_read_away_from_where_they_meet) {
  const auto shapes = shapes_of_example("pipe-tee", "");

  BOOST_TEST_REQUIRE(shapes.size() == 2u);
  for (const SimpleShape& tube : shapes) {
    BOOST_TEST((tube.kind == ShapeKind::cylinder));
    BOOST_TEST(tube.wall == 5.0, tolerance(1e-6));
    BOOST_TEST(tube.place.to_edge > 10.0);
    BOOST_TEST(tube.place.to_opening > 10.0);
    // Hoses close the run's ports; the run's far wall closes the branch of 9 mm.
    BOOST_TEST(tube.along_axis.has_value() == (tube.radius < 10.0));
  }
  BOOST_TEST(std::min(shapes[0].radius, shapes[1].radius) == 9.0, tolerance(1e-6));
  BOOST_TEST(std::max(shapes[0].radius, shapes[1].radius) == 11.0, tolerance(1e-6));
}

BOOST_AUTO_TEST_CASE(a_lid_within_its_seal_is_a_supported_cover) {
  const auto shapes = shapes_of_example("vacuum-lid", "");

  const auto cover = std::find_if(shapes.begin(), shapes.end(), [](const SimpleShape& shape) {
    return shape.kind == ShapeKind::round_plate;
  });
  BOOST_TEST_REQUIRE((cover != shapes.end()));
  BOOST_TEST(!cover->held_by_walls);
  // The hose's hole is in the middle: the line stands beside it, in the material.
  BOOST_TEST(cover->place.at_radius > 4.5);
}

BOOST_AUTO_TEST_CASE(the_bore_of_a_block_has_its_least_wall) {
  // Bore of 20 mm, 7 mm off the bottom of a block 60 x 50: 7 to 23 mm up and down, 20 sideways.
  const auto block_with_bore = cut(block(80, 60, 50), {rod({0, 30, 17}, {1, 0, 0}, 20, 80)});
  const auto shapes = shapes_of(block_with_bore, hollow);

  BOOST_TEST_REQUIRE(shapes.size() == 1u);
  BOOST_TEST(shapes[0].wall == 7.0, tolerance(0.02));  // the nearest of 24 rays is 3.75 degrees off
  BOOST_TEST(shapes[0].wall_greatest > 20.0);
}

BOOST_AUTO_TEST_CASE(a_stepped_tube_counts_with_its_thin_part) {
  const auto stepped =
      parts::revolved_profile({{20, 0}, {24, 0}, {24, 60}, {30, 60}, {30, 100}, {20, 100}});
  const auto shapes = shapes_of(stepped, hollow);

  BOOST_TEST_REQUIRE(shapes.size() == 1u);
  BOOST_TEST(shapes[0].wall == 4.0, tolerance(1e-6));
  // Half-way along the thin part, to the width of a station.
  BOOST_TEST(std::abs(shapes[0].place.from.z() - 30.0) < 3.0);
}

BOOST_AUTO_TEST_CASE(a_tube_pressed_from_outside_is_known_as_such) {
  const auto shapes = shapes_of(tube(30, 27, 100), [](const CadFace& face) {
    return face.kind == SurfaceKind::cylinder && !face.hollow;
  });

  BOOST_TEST_REQUIRE(shapes.size() == 1u);
  BOOST_TEST(!shapes[0].pressed_inside);
  BOOST_TEST(shapes[0].place.from.head<2>().norm() == 30.0, tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(a_closed_box_is_six_panels) {
  auto shapes = shapes_of_hollow(cut(block(86, 56, 36), {block(80, 50, 30, 3, 3, 3)}));

  BOOST_TEST_REQUIRE(shapes.size() == 6u);
  std::sort(shapes.begin(), shapes.end(), [](const SimpleShape& a, const SimpleShape& b) {
    return a.radius * a.length < b.radius * b.length;
  });
  const double sides[][2] = {{30, 50}, {30, 80}, {50, 80}};
  for (std::size_t i = 0; i < 6; ++i) {
    BOOST_TEST((shapes[i].kind == ShapeKind::rectangular_plate));
    BOOST_TEST(shapes[i].held_by_walls);
    BOOST_TEST(shapes[i].wall == 3.0, tolerance(1e-6));
    BOOST_TEST(2.0 * shapes[i].radius == sides[i / 2][0], tolerance(1e-6));
    BOOST_TEST(shapes[i].length == sides[i / 2][1], tolerance(1e-6));
    BOOST_TEST_REQUIRE(shapes[i].edge.has_value());
    BOOST_TEST(shapes[i].edge->to_edge == 1.5, tolerance(1e-6));
  }
}

BOOST_AUTO_TEST_CASE(ribs_outside_make_a_bottom_several_panels) {
  // An open tray, 100 x 70 inside, bottom of 3, three ribs of 4 x 10 under it across its length:
  // at x = 0, 48 and 102, the middle panels 44 and 50 wide.
  const auto tray = fuse(
      cut(block(106, 76, 33), {block(100, 70, 30, 3, 3, 3)}),
      {block(4, 76, 10, 0, 0, -10), block(4, 76, 10, 48, 0, -10), block(4, 76, 10, 102, 0, -10)});
  const auto shapes = shapes_of(tray, [](const CadFace& face) {
    return face.kind == SurfaceKind::plane && face.axis.z() > 0.99 &&
           std::abs(face.origin.z() - 3.0) < 1e-6;
  });

  BOOST_TEST_REQUIRE(shapes.size() == 2u);
  const double least = std::min(shapes[0].radius, shapes[1].radius);
  const double greatest = std::max(shapes[0].radius, shapes[1].radius);
  BOOST_TEST(2.0 * least == 44.0, tolerance(1e-6));
  BOOST_TEST(2.0 * greatest == 50.0, tolerance(1e-6));
  for (const SimpleShape& panel : shapes) {
    BOOST_TEST(panel.wall == 3.0, tolerance(1e-6));
    BOOST_TEST(panel.length == 70.0, tolerance(1e-6));         // between the walls inside
    BOOST_TEST(panel.place.from.z() == 3.0, tolerance(1e-9));  // the water's side
  }
}

BOOST_AUTO_TEST_CASE(what_is_no_shell_and_no_plate_is_left_alone) {
  const auto any = [](const CadFace&) { return true; };
  // Pressed from both sides; a drilled hole in a thick block; a solid.
  BOOST_TEST(shapes_of(tube(30, 27, 100), any).empty());
  BOOST_TEST(
      shapes_of(cut(block(60, 60, 60), {rod({30, 30, 0}, {0, 0, 1}, 4, 60)}), hollow).empty());
  BOOST_TEST(shapes_of(block(50, 40, 30), any).empty());
}

BOOST_AUTO_TEST_SUITE_END()
