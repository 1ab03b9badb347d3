// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/face_choice/parted_bodies.h"

#include <algorithm>

#include "tests/mesh/simple_parts.h"
#include "tests/support/refusal.h"

namespace crossgrain::testing {
namespace {

/// A base with a step, and a lid that lies on both its levels.
Geometry stepped() {
  const TopoDS_Shape base = fuse(block(20, 20, 10), {block(20, 10, 15)});
  const TopoDS_Shape lid = fuse(block(20, 20, 5, 0, 0, 15), {block(20, 10, 10, 0, 10, 10)});
  return import_step(StepFile({{base, "base", {}, {}}, {lid, "lid", {}, {}}}).import());
}

/// The face of a body with this outward normal and height.
FaceId flat(const Geometry& geometry, int body, double normal, double height) {
  const auto found =
      std::find_if(geometry.faces.begin(), geometry.faces.end(), [&](const CadFace& face) {
        return number(face.body) == body && face.axis.z() * normal > 0.9 &&
               std::abs(face.centroid.z() - height) < 1e-6;
      });
  BOOST_REQUIRE((found != geometry.faces.end()));
  return found->id;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(parted)

BOOST_AUTO_TEST_CASE(bodies_whose_faces_meet_are_parted_once) {
  const Geometry geometry = stepped();
  const FaceId low = flat(geometry, 1, 1, 10), high = flat(geometry, 1, 1, 15);
  const FaceId above_low = flat(geometry, 2, -1, 10), above_high = flat(geometry, 2, -1, 15);

  const PartedBodies parted = parted_bodies(
      geometry, {{"rim", {low}, {above_low}, 0.0}, {"step", {above_high}, {high}, 0.1}});

  BOOST_REQUIRE(parted.pairs.size() == 1u);
  BOOST_TEST(number(parted.pairs[0].first) == 1);
  BOOST_TEST(number(parted.pairs[0].second) == 2);
  BOOST_TEST(parted.pairs[0].interference == 0.1);
}

BOOST_AUTO_TEST_CASE(faces_that_touch_where_nothing_joins_them_are_told) {
  const Geometry geometry = stepped();
  const StatedMeeting rim{"rim", {flat(geometry, 1, 1, 10)}, {flat(geometry, 2, -1, 10)}, 0.0};
  const StatedMeeting step{"step", {flat(geometry, 2, -1, 15)}, {flat(geometry, 1, 1, 15)}, 0.0};

  const auto warned = [&](const std::vector<StatedMeeting>& meetings, const std::string& place) {
    const auto warnings = parted_bodies(geometry, meetings).warnings;
    return std::count_if(warnings.begin(), warnings.end(), [&](const std::string& warning) {
      return warning.find(place) != std::string::npos &&
             warning.find("nothing joins them") != std::string::npos;
    });
  };

  // The level that no meeting names, and the upright face between both.
  BOOST_TEST(warned({rim}, "plane near (10, 5, 15) mm) of body 1 \"base\" and face") == 1);
  BOOST_TEST(warned({rim}, "touch on 200 mm^2") == 1);
  BOOST_TEST(warned({rim}, "touch on 100 mm^2") == 1);
  BOOST_TEST(warned({rim, step}, "touch on 200 mm^2") == 0);
  BOOST_TEST(parted_bodies(geometry, {}).warnings.empty());
}

BOOST_AUTO_TEST_CASE(a_meeting_of_one_body_with_itself_is_refused) {
  const Geometry geometry = stepped();
  const FaceId low = flat(geometry, 1, 1, 10), high = flat(geometry, 1, 1, 15);

  BOOST_TEST(refused(
      [&] {
        parted_bodies(geometry, {{"[[contact]] 'rim'", {low}, {high}, 0.0}});
      },
      "[[contact]] 'rim': face"));
  BOOST_TEST(refused(
      [&] {
        parted_bodies(geometry, {{"[[contact]] 'rim'", {low}, {high}, 0.0}});
      },
      "are both of body 1 \"base\"; choose the faces of one body as faces"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
