// SPDX-License-Identifier: GPL-3.0-or-later
// The listing of a part as its reader sees it.
#include "tools/listings/geometry_text.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <string>

#include "tools/listings/table_text.h"

namespace crossgrain::testing {
namespace {

using Eigen::Vector3d;

CadFace face_of(int id, SurfaceKind kind, double area, const Vector3d& centroid,
                const Vector3d& axis) {
  CadFace face{};
  face.id = FaceId{id};
  face.body = BodyId{1};
  face.kind = kind;
  face.area = area;
  face.centroid = centroid;
  face.axis = axis;
  return face;
}

Inspection small_inspection() {
  Inspection inspection;
  Geometry& geometry = inspection.geometry;
  geometry.files = {{"tank.step", "inch", 1.0}};
  geometry.box = {Vector3d::Zero(), Vector3d(680, 12345.6, 1e-17)};
  Body body{};
  body.id = BodyId{1};
  body.name = "tank\x1b[2J";
  body.volume = 14642817.3;
  body.area = 2200;
  body.box = geometry.box;
  geometry.bodies = {body};
  geometry.faces = {face_of(1, SurfaceKind::plane, 222955.4, {-6.3e-14, 12345.678, -0.0},
                            {-std::sqrt(0.5), -1e-17, std::sqrt(0.5)}),
                    face_of(2, SurfaceKind::cylinder, 0.0046095, {1, 2.0004, 3}, {0, 0, -1})};
  geometry.faces[1].radius = 5.05;
  geometry.faces[1].hollow = true;
  return inspection;
}

bool holds(const std::string& text, const std::string& line) {
  return text.find(line + '\n') != std::string::npos;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(geometry_listing)

BOOST_AUTO_TEST_CASE(numbers_have_no_exponent_no_rounding_noise_and_no_minus_zero) {
  const std::string text = geometry_text(small_inspection());

  BOOST_TEST(holds(text, "tank.step: drawn in inch\n680 x 12346 x 0 mm over all, 1 body, 2 faces"));
  BOOST_TEST(holds(text, "   1  14642817    2200      680 x 12346 x 0  tank [2J"));
  BOOST_TEST(holds(text,
                   "   1     1  plane     222955     (0, 12345.678, 0)  (-0.7071, 0, 0.7071)  "
                   "               -"));
  BOOST_TEST(holds(text,
                   "   2     1  cylinder  0.0046095  (1, 2, 3)          -z                    "
                   "d 10.1 hollow  -"));
}

BOOST_AUTO_TEST_CASE(a_missing_unit_and_a_scale_are_said) {
  Inspection inspection = small_inspection();
  inspection.geometry.files[0].declared_unit.clear();
  inspection.geometry.files[0].scale = 25.4;

  const std::string text = geometry_text(inspection);

  BOOST_TEST(text.find("tank.step: no unit declared, all lengths multiplied by 25.4\n680") == 0u);
}

BOOST_AUTO_TEST_CASE(faces_that_meet_are_listed_with_how_far_they_are_apart) {
  Inspection inspection = small_inspection();
  Body lid = inspection.geometry.bodies[0];
  lid.id = BodyId{2};
  inspection.geometry.bodies.push_back(lid);
  inspection.geometry.faces[1].body = BodyId{2};
  const auto listed_at = [&](double apart) {
    inspection.touching = {{FaceId{1}, FaceId{2}, 1234.56, apart}};
    return geometry_text(inspection);
  };

  BOOST_TEST(holds(listed_at(2.0), "     1        1         2        2  1235      2.00 apart"));
  BOOST_TEST(
      holds(listed_at(-0.05), "     1        1         2        2  1235      0.05 in each other"));
  BOOST_TEST(holds(listed_at(-1e-9), "     1        1         2        2  1235      touch"));
  BOOST_TEST(holds(geometry_json(inspection), "      \"apart_mm\": -1e-09"));
}

BOOST_AUTO_TEST_CASE(what_joins_faces_that_meet_is_there_to_be_pasted) {
  Inspection inspection = small_inspection();
  inspection.geometry.bodies[0].name = "tank";
  Body lid = inspection.geometry.bodies[0];
  lid.id = BodyId{2};
  lid.name = "lid";
  inspection.geometry.bodies.push_back(lid);
  inspection.geometry.faces[0].axis = Vector3d::UnitZ();
  inspection.geometry.faces[0].centroid = {0, 0, 12};
  inspection.geometry.faces[1].body = BodyId{2};
  const auto written = [&](double apart) {
    inspection.touching = {{FaceId{1}, FaceId{2}, 1234.56, apart}};
    return geometry_text(inspection);
  };
  const std::string faces =
      "faces = { plane = \"+z\", at = \"12 mm\", body = \"tank\" }\n"
      "mate = { ids = [2], body = \"lid\" }\n";

  BOOST_TEST(written(0.0).find("# face 1 on face 2\n[[contact]]\nname = \"tank - lid\"\n"
                               "kind = \"unilateral\"\n" +
                               faces) != std::string::npos);
  BOOST_TEST(written(-0.05).find(faces + "clearance = \"-0.05 mm\"") != std::string::npos);
  BOOST_TEST(written(2.0).find("[[gasket]]\nname = \"tank - lid\"\n" + faces) != std::string::npos);
  BOOST_TEST(written(2.0).find("thickness = \"2 mm\"") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_pattern_names_its_holes) {
  Inspection inspection = small_inspection();
  Hole hole{};
  hole.id = 1;
  hole.body = BodyId{1};
  hole.diameter = 5.5;
  hole.depth = 12;
  hole.axis = Vector3d::UnitZ();
  hole.mouth = Vector3d(10, 0, 4);
  hole.seat = Seat{FaceId{1}, 5.5, {}};
  inspection.features.holes = {hole};
  inspection.features.patterns = {
      HolePattern{{1, 3, 4}, 5.5, true, Vector3d(1e-15, 0, 4), Vector3d::UnitZ(), 20.0, 17.3205}};

  const std::string text = geometry_text(inspection);

  BOOST_TEST(holds(text, "   1     1  5.5          12        blind  +z    (10, 0, 4)  on face 1"));
  BOOST_TEST(holds(
      text, "  Holes 1, 3, 4: 5.5 mm on a ring of 20 mm about +z at (0, 0, 4), 17.32 mm apart"));
}

BOOST_AUTO_TEST_CASE(columns_fit_their_widest_cell_in_characters) {
  const std::string text =
      table_text({">id", "name", "kind"}, {{"1", "Gehäuse", "x"}, {"12", "", "y"}});

  BOOST_TEST(text ==
             "  id  name     kind\n"
             "   1  Gehäuse  x\n"
             "  12           y\n");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
