// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/face_choice/face_choice.h"

#include <boost/test/unit_test.hpp>

#include "tests/cases/case_text.h"
#include "tests/support/refusal.h"

// Expected faces and messages follow from a part written down by hand.
using namespace crossgrain;
using namespace crossgrain::testing;
using Eigen::Vector3d;

namespace {

const std::array<double, 3> red{0.8, 0.2, 0.0};   // #cc3300
const std::array<double, 3> grey{0.6, 0.6, 0.6};  // #999999

CadFace made_face(int id, int body, SurfaceKind kind, const Vector3d& axis,
                  const Vector3d& centroid) {
  CadFace face{};
  face.id = FaceId{id};
  face.body = BodyId{body};
  face.kind = kind;
  face.area = 100.0;
  face.axis = axis;
  face.centroid = face.origin = centroid;
  return face;
}

/// A plate, body 1, 20 mm thick with its top at z = 20, and a lid, body 2, above it. Faces: 1 top
/// (named, red), 2 bottom, 3 side +x, 4 and 5 walls of two 6.4 mm holes along z, 6 floor of the
/// second, 7 wall of a 12 mm hole along x, 8 seat of the first (at z = 15); 9 and 10 are the lid's
/// top and bottom.
Geometry plate_and_lid() {
  Geometry part;
  const auto add = [&](SurfaceKind kind, const Vector3d& axis, const Vector3d& centroid) {
    const int id = static_cast<int>(part.faces.size()) + 1;
    part.faces.push_back(made_face(id, id <= 8 ? 1 : 2, kind, axis, centroid));
  };
  add(SurfaceKind::plane, {0, 0, 1}, {0, 0, 20});
  add(SurfaceKind::plane, {0, 0, -1}, {0, 0, 0});
  add(SurfaceKind::plane, {1, 0, 0}, {50, 0, 10});
  add(SurfaceKind::cylinder, {0, 0, 1}, {-20, 0, 10});
  add(SurfaceKind::cylinder, {0, 0, 1}, {20, 0, 15});
  add(SurfaceKind::plane, {0, 0, 1}, {20, 0, 10});
  add(SurfaceKind::cylinder, {1, 0, 0}, {0, 0, 10});
  add(SurfaceKind::plane, {0, 0, 1}, {-20, 0, 15});
  add(SurfaceKind::plane, {0, 0, 1}, {0, 0, 30});
  add(SurfaceKind::plane, {0, 0, -1}, {0, 0, 25});
  part.faces[0].name = "gasket face";
  part.faces[0].colour = red;
  for (int id = 1; id <= 2; ++id) {
    Body body{};
    body.id = BodyId{id};
    body.name = id == 1 ? "plate" : "lid";
    body.colour = grey;
    for (const CadFace& face : part.faces) {
      if (face.body == body.id) body.faces.push_back(face.id);
    }
    body.shells = {body.faces};
    part.bodies.push_back(body);
  }
  return part;
}

Hole made_hole(int id, double diameter, const Vector3d& axis, const Vector3d& mouth, int wall) {
  Hole hole{};
  hole.id = id;
  hole.body = BodyId{1};
  hole.diameter = diameter;
  hole.axis = axis;
  hole.mouth = mouth;
  hole.wall = {FaceId{wall}};
  hole.through = true;
  return hole;
}

Features holes_of_the_plate() {
  Features features;
  features.holes = {made_hole(1, 6.4, {0, 0, 1}, {-20, 0, 15}, 4),
                    made_hole(2, 6.4, {0, 0, 1}, {20, 0, 20}, 5),
                    made_hole(3, 12.0, {1, 0, 0}, {50, 0, 10}, 7)};
  features.holes[0].seat = Seat{FaceId{8}, 6.4, 11.0};
  features.holes[1].through = false;
  features.holes[1].floor = FaceId{6};
  return features;
}

/// Read `text` as the faces of a case's pressure.
FaceChoice choice(const std::string& text) {
  return case_from(one_body + "[[pressure]]\nname = \"p\"\nvalue = \"1 bar\"\nfaces = " + text)
      .pressures[0]
      .faces;
}

std::vector<int> chosen(const std::string& text, const Geometry& part = plate_and_lid()) {
  std::vector<int> ids;
  for (const FaceId face : choose_faces(part, holes_of_the_plate(), choice(text)).faces) {
    ids.push_back(number(face));
  }
  return ids;
}

using Ids = std::vector<int>;

}  // namespace

BOOST_AUTO_TEST_SUITE(face_choice)

BOOST_AUTO_TEST_CASE(holes_are_chosen_by_diameter_axis_and_part) {
  BOOST_TEST(chosen("{ hole = \"6.4 mm\" }") == (Ids{4, 5}));
  BOOST_TEST(chosen("{ hole = \"6.43 mm\", axis = \"-z\", count = 2 }") == (Ids{4, 5}));
  BOOST_TEST(chosen("{ hole = \"12 mm\", axis = \"x\" }") == Ids{7});
  BOOST_TEST(choose_faces(plate_and_lid(), holes_of_the_plate(), choice("{ hole = \"6.4 mm\" }"))
                 .holes.size() == 2u);
}

BOOST_AUTO_TEST_CASE(a_hole_without_the_part_asked_for_is_named) {
  const Features features = holes_of_the_plate();

  BOOST_TEST(refused(
      [&] {
        choose_faces(plate_and_lid(), features, choice("{ hole = \"6.4 mm\", part = \"floor\" }"));
      },
      "hole 1 at (-20, 0, 15) mm goes through and has no floor; choose its wall"));
  BOOST_TEST(refused(
      [&] {
        choose_faces(plate_and_lid(), features, choice("{ hole = \"12 mm\", part = \"seat\" }"));
      },
      "hole 3 at (50, 0, 10) mm has no flat seat round its mouth"));
}

BOOST_AUTO_TEST_CASE(a_diameter_that_no_hole_has_is_answered_with_those_there_are) {
  BOOST_TEST(refused([&] { chosen("{ hole = \"5.5 mm\" }"); },
                     ":8: { hole = \"5.5 mm\" }: no such hole; there are 2 of 6.4 mm along z, 1 of "
                     "12 mm along x; correct the diameter or the axis"));
  BOOST_TEST(refused([&] { chosen("{ hole = \"6.4 mm\", axis = \"x\" }"); }, "no such hole"));
}

BOOST_AUTO_TEST_CASE(too_many_or_too_few_are_listed_with_their_places) {
  BOOST_TEST(refused([&] { chosen("{ hole = \"6.4 mm\", count = 8 }"); },
                     "found 2, not 8: hole 1 at (-20, 0, 15) mm, hole 2 at (20, 0, 20) mm; correct "
                     "count, or narrow the choice"));
  BOOST_TEST(refused([&] { chosen("{ ids = [1, 3], count = 1 }"); },
                     "found 2, not 1: face 1 \"gasket face\" (plane near (0, 0, 20) mm), face 3"));
}

BOOST_AUTO_TEST_CASE(planes_are_chosen_by_normal_and_position) {
  BOOST_TEST(chosen("{ plane = \"+z\", at = \"20 mm\" }") == Ids{1});
  BOOST_TEST(chosen("{ plane = \"-z\", at = \"0 mm\" }") == Ids{2});
  BOOST_TEST(chosen("{ plane = \"-z\", at = \"-25 mm\" }") == Ids{10});
}

BOOST_AUTO_TEST_CASE(a_plane_that_is_not_there_is_answered_with_those_that_are) {
  BOOST_TEST(refused([&] { chosen("{ plane = \"+z\", at = \"12 mm\" }"); },
                     "no flat face there; those that look that way are at 10, 15, 20, 30 mm"));
  BOOST_TEST(refused([&] { chosen("{ plane = \"-x\", at = \"50 mm\" }"); },
                     "none looks that way; flat faces look to +x at 50 mm; +z at 10, 15, 20, 30 "
                     "mm; -z at -25, 0 mm"));
}

BOOST_AUTO_TEST_CASE(names_belong_to_faces_or_to_bodies) {
  BOOST_TEST(chosen("{ name = \"gasket face\" }") == Ids{1});
  BOOST_TEST(chosen("{ name = \"lid\" }") == (Ids{9, 10}));
  BOOST_TEST(refused([&] { chosen("{ name = \"gaskt face\" }"); },
                     "no face or body has this name; did you mean 'gasket face'?"));
  BOOST_TEST(refused([&] { chosen("{ name = \"inlet\" }"); },
                     "no face or body has this name; there are 'gasket face'; choose in another"));
}

BOOST_AUTO_TEST_CASE(a_face_shows_its_own_colour_or_its_bodys) {
  BOOST_TEST(chosen("{ colour = \"#cc3300\" }") == Ids{1});
  BOOST_TEST(chosen("{ colour = \"#999999\", body = \"lid\" }") == (Ids{9, 10}));
  BOOST_TEST(refused([&] { chosen("{ colour = \"#0000ff\" }"); },
                     "no face has this colour; there are #999999 (9 faces), #cc3300 (1 face)"));
}

BOOST_AUTO_TEST_CASE(ids_must_be_there) {
  BOOST_TEST(chosen("{ ids = [3, 1] }") == (Ids{3, 1}));
  BOOST_TEST(
      refused([&] { chosen("{ ids = [11] }"); },
              "there is no face 11; the part has faces 1 to 10, `crossgrain inspect` lists"));
}

BOOST_AUTO_TEST_CASE(a_body_narrows_the_choice) {
  BOOST_TEST(chosen("{ plane = \"+z\", at = \"30 mm\", body = \"lid\" }") == Ids{9});
  BOOST_TEST(chosen("{ plane = \"+z\", at = \"30 mm\", body = \"2\" }") == Ids{9});
  BOOST_TEST(refused([&] { chosen("{ plane = \"+z\", at = \"30 mm\", body = \"plate\" }"); },
                     "those that look that way are at 10, 15, 20 mm"));
  BOOST_TEST(refused([&] { chosen("{ ids = [1], body = \"cover\" }"); },
                     "no body has the name 'cover'; there are 1 \"plate\", 2 \"lid\""));
  BOOST_TEST(refused([&] { chosen("{ ids = [1], body = \"lid\" }"); },
                     "face 1 belongs to body 1 \"plate\", which this choice or this case leaves"));
}

BOOST_AUTO_TEST_CASE(bodies_that_the_case_leaves_out_are_not_chosen) {
  Geometry part = plate_and_lid();
  part.bodies[1].modelled = false;

  BOOST_TEST(refused([&] { chosen("{ plane = \"+z\", at = \"30 mm\" }", part); },
                     "those that look that way are at 10, 15, 20 mm"));
  BOOST_TEST(refused([&] { chosen("{ ids = [9] }", part); }, "face 9 belongs to body 2 \"lid\""));
  BOOST_TEST(refused([&] { chosen("{ name = \"lid\" }", part); }, "no face or body has this name"));
  BOOST_TEST(refused([&] { chosen("{ outside = true, body = \"lid\" }", part); },
                     "no body has the name 'lid'; there are 1 \"plate\""));
}

BOOST_AUTO_TEST_CASE(the_outside_is_the_outer_shells_but_what_is_excepted) {
  BOOST_TEST(chosen("{ outside = true, body = \"lid\" }") == (Ids{9, 10}));
  BOOST_TEST(chosen("{ outside = true, except = { hole = \"6.4 mm\" }, body = \"plate\" }") ==
             (Ids{1, 2, 3, 6, 7, 8}));
  BOOST_TEST(
      refused([&] { chosen("{ outside = true, except = { name = \"lid\" }, body = \"lid\" }"); },
              "nothing is left of the outside"));
}

BOOST_AUTO_TEST_CASE(a_list_takes_every_face_once) {
  BOOST_TEST(chosen("[{ ids = [3, 1] }, { name = \"gasket face\" }, { hole = \"12 mm\" }]") ==
             (Ids{3, 1, 7}));
}

BOOST_AUTO_TEST_CASE(an_inner_choice_that_finds_nothing_names_its_own_line) {
  BOOST_TEST(refused([&] { chosen("[{ ids = [3] },\n  { hole = \"5 mm\" }]"); },
                     ":9: { hole = \"5 mm\" }: no such hole"));
}

BOOST_AUTO_TEST_SUITE_END()
