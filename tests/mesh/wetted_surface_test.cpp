// SPDX-License-Identifier: GPL-3.0-or-later
// The wetted surface of cavities whose volume and ports are known.
#include "mesh/features/wetted_surface.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "mesh/meshing.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"
#include "tools/parts/demo_parts.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;
using Eigen::Vector3d;

constexpr double pi = M_PI;
constexpr double exact = 1e-9;       // the STEP file's 15 digits
constexpr double integrated = 1e-7;  // where integrals over curved faces are refined to

FaceId face_named(const Geometry& geometry, const std::string& name) {
  const auto found = std::find_if(geometry.faces.begin(), geometry.faces.end(),
                                  [&](const CadFace& face) { return face.name == name; });
  BOOST_REQUIRE((found != geometry.faces.end()));
  return found->id;
}

/// The plane at a height, which must be the only one.
FaceId plane_at(const Geometry& geometry, double z) {
  const auto is_it = [&](const CadFace& face) {
    return face.kind == SurfaceKind::plane && std::abs(face.axis.z()) > 0.9 &&
           std::abs(face.centroid.z() - z) < 1e-6;
  };
  BOOST_REQUIRE_EQUAL(std::count_if(geometry.faces.begin(), geometry.faces.end(), is_it), 1);
  return std::find_if(geometry.faces.begin(), geometry.faces.end(), is_it)->id;
}

Geometry import(const TopoDS_Shape& shape) { return import_step(StepFile(shape).import()); }
Geometry import(const std::vector<parts::StepBody>& bodies) {
  return import_step(StepFile(bodies).import());
}

/// Over a closed surface the outward areas cancel.
void check_closure(const Geometry& geometry, const WettedSurface& wetted) {
  Vector3d sum = Vector3d::Zero();
  for (const FaceId face : wetted.faces) sum -= geometry.face(face).vector_area;
  for (const Opening& opening : wetted.openings) sum += opening.vector_area;
  BOOST_TEST(sum.norm() < 1e-12 * wetted.area);  // rounding only
}

/// A bore of 20 from the top of a round pot, 60 deep.
TopoDS_Shape pot() {
  return cut(rod({0, 0, 0}, {0, 0, 1}, 40, 80), {rod({0, 0, 20}, {0, 0, 1}, 20, 70)});
}

}  // namespace

BOOST_AUTO_TEST_SUITE(wetted_surface)

BOOST_AUTO_TEST_CASE(a_blind_bore_is_wet_up_to_its_mouth) {
  const Geometry geometry = import(pot());
  const FaceId top = plane_at(geometry, 80);

  const FaceId seen = face_seen_from(geometry, {0, 0, 40});
  const WettedSurface wetted = flood(geometry, seen, {{"mouth", {top}}});

  BOOST_TEST(wetted.faces.size() == 2u);
  BOOST_TEST(wetted.area == pi * 100 + pi * 20 * 60, tolerance(integrated));
  BOOST_TEST(wetted.volume == pi * 100 * 60, tolerance(integrated));
  BOOST_REQUIRE_EQUAL(wetted.openings.size(), 1u);
  const Opening& mouth = wetted.openings.front();
  BOOST_TEST(mouth.name == "mouth");
  BOOST_TEST((mouth.beyond == top));
  BOOST_TEST(near(mouth.centre, Vector3d(0, 0, 80), exact));
  BOOST_TEST(near(mouth.vector_area, Vector3d(0, 0, pi * 100), exact));
  check_closure(geometry, wetted);
}

BOOST_AUTO_TEST_CASE(a_volume_does_not_depend_on_where_the_part_lies) {
  const Vector3d at(700, -300, 500);
  const TopoDS_Shape part =
      cut(rod(at, {0, 0, 1}, 40, 80), {rod(at + Vector3d(0, 0, 20), {0, 0, 1}, 20, 70)});
  const Geometry geometry = import(part);

  const WettedSurface wetted = flood(geometry, face_seen_from(geometry, at + Vector3d(0, 0, 40)),
                                     {{"mouth", {plane_at(geometry, at.z() + 80)}}});

  BOOST_TEST(wetted.volume == pi * 100 * 60, tolerance(integrated));
}

BOOST_AUTO_TEST_CASE(a_through_bore_has_an_opening_at_each_end) {
  const Geometry geometry = import(tube(15, 10, 40));

  const WettedSurface wetted =
      flood(geometry, face_seen_from(geometry, {1, 2, 20}),
            {{"top", {plane_at(geometry, 40)}}, {"bottom", {plane_at(geometry, 0)}}});

  BOOST_REQUIRE_EQUAL(wetted.openings.size(), 2u);
  for (const Opening& opening : wetted.openings) {
    const double out = opening.name == "top" ? 1.0 : -1.0;
    BOOST_TEST(near(opening.vector_area, Vector3d(0, 0, out * pi * 100), exact));
  }
  BOOST_TEST(wetted.volume == pi * 100 * 40, tolerance(integrated));
  check_closure(geometry, wetted);
}

BOOST_AUTO_TEST_CASE(a_tee_has_three_ports) {
  const Geometry geometry = import(parts::pipe_tee());

  const WettedSurface wetted = flood(geometry, face_seen_from(geometry, {0, 0, 0}),
                                     {{"inlet", {face_named(geometry, "inlet")}},
                                      {"outlet", {face_named(geometry, "outlet")}},
                                      {"branch", {face_named(geometry, "branch")}}});

  BOOST_TEST(wetted.faces.size() == 2u);
  BOOST_REQUIRE_EQUAL(wetted.openings.size(), 3u);
  for (const Opening& opening : wetted.openings) {
    const Vector3d expected = opening.name == "inlet"    ? Vector3d(-pi * 121, 0, 0)
                              : opening.name == "outlet" ? Vector3d(pi * 121, 0, 0)
                                                         : Vector3d(0, 0, pi * 81);
    BOOST_TEST(near(opening.vector_area, expected, exact));
  }
  // The branch's bore of radius 9 starts at the run's wall of radius 11, so the cavity is the run
  // and a cylinder of length 50 less the mean of sqrt(121 - y^2) over the branch's circle.
  double mean = 0.0;
  constexpr int steps = 20000;
  for (int i = 0; i < steps; ++i) {
    const double y = -9 + 18 * (i + 0.5) / steps;
    mean += std::sqrt(121 - y * y) * 2 * std::sqrt(81 - y * y) * 18 / steps / (pi * 81);
  }
  // The saddle edge is a spline through points of the intersection, 1e-5 of a port's size off.
  BOOST_TEST(wetted.volume == pi * 121 * 110 + pi * 81 * (50 - mean), tolerance(1e-6));
  check_closure(geometry, wetted);
}

BOOST_AUTO_TEST_CASE(a_forgotten_port_is_an_error_that_names_the_way_out) {
  const Geometry geometry = import(parts::pipe_tee());
  const FaceId start = face_seen_from(geometry, {-40, 0, 0});
  const std::vector<FloodStop> stops = {{"inlet", {face_named(geometry, "inlet")}},
                                        {"outlet", {face_named(geometry, "outlet")}}};

  BOOST_TEST(refused([&] { flood(geometry, start, stops); }, "the fluid gets out of the body"));
  BOOST_TEST(refused([&] { flood(geometry, start, stops); },
                     "-> face " + std::to_string(number(face_named(geometry, "branch"))) +
                         " \"branch\" (plane near (0, 0, 50) mm)"));
  BOOST_TEST(refused([&] { flood(geometry, start, {}); }, "the fluid gets out of the body"));
}

BOOST_AUTO_TEST_CASE(a_leak_between_flanges_is_an_error) {
  // Neither the tube's outside nor its drain hole lies on the convex outside: the flanges do.
  const TopoDS_Shape spool =
      cut(fuse(rod({0, 0, 5}, {0, 0, 1}, 30, 90),
               {rod({0, 0, 0}, {0, 0, 1}, 70, 10), rod({0, 0, 90}, {0, 0, 1}, 70, 10)}),
          {rod({0, 0, -1}, {0, 0, 1}, 20, 120), rod({0, 0, 50}, {1, 0, 0}, 4, 40)});
  const Geometry geometry = import(spool);
  const FaceId start = face_seen_from(geometry, {0, 0, 20});

  BOOST_TEST(refused(
      [&] {
        flood(geometry, start, {{"a", {plane_at(geometry, 0)}}, {"b", {plane_at(geometry, 100)}}});
      },
      "the fluid gets out of the body"));
}

BOOST_AUTO_TEST_CASE(fluid_may_wet_a_flat_lid_up_to_its_seal) {
  // The wet underside is flush with the body's outside, yet the fluid does not get out.
  const Geometry geometry = import(parts::vacuum_lid());

  const WettedSurface wetted = flood(geometry, face_seen_from(geometry, {30, 0, -20}),
                                     {{"seal", {face_named(geometry, "seal ring")}},
                                      {"hose", {face_named(geometry, "hose end")}}});

  BOOST_TEST(wetted.faces.size() == 2u);
  BOOST_REQUIRE_EQUAL(wetted.openings.size(), 2u);
  for (const Opening& opening : wetted.openings) {
    const Vector3d expected =
        opening.name == "seal" ? Vector3d(0, 0, -pi * 4900) : Vector3d(0, 0, pi * 20.25);
    BOOST_TEST(near(opening.vector_area, expected, exact));
  }
  BOOST_TEST(wetted.volume == pi * 20.25 * 32, tolerance(integrated));
  BOOST_TEST(refused(
      [&] {
        flood(geometry, face_seen_from(geometry, {30, 0, -20}),
              {{"seal", {face_named(geometry, "seal ring")}}});
      },
      "the fluid gets out of the body"));
}

BOOST_AUTO_TEST_CASE(pressure_ends_at_the_seal_line_of_a_flange) {
  const Geometry geometry = import({parts::filter_housing().front()});

  const WettedSurface wetted = flood(geometry, face_seen_from(geometry, {0, 0, -40}),
                                     {{"seal line", {face_named(geometry, "gasket ring")}}});

  BOOST_REQUIRE_EQUAL(wetted.openings.size(), 1u);
  BOOST_TEST(near(wetted.openings.front().vector_area, Vector3d(0, 0, pi * 33 * 33), exact));
  // A bore of radius 30 and depth 82 with a fillet of radius 8 at its floor: Pappus takes the
  // corner square less quarter circle off, its centroid at 8 (1 - (10 - 3 pi)/(12 - 3 pi)) from ...
  const double corner = 64 - pi * 16;
  const double from_corner = 8 * (10 - 3 * pi) / (12 - 3 * pi);
  const double expected = pi * 900 * 82 - 2 * pi * (30 - from_corner) * corner;
  BOOST_TEST(wetted.volume == expected, tolerance(integrated));
  check_closure(geometry, wetted);
}

BOOST_AUTO_TEST_CASE(ports_that_end_on_one_face_are_numbered) {
  const Geometry geometry = import(parts::manifold_block());

  const WettedSurface wetted = flood(geometry, face_seen_from(geometry, {50, 19.05, 16.5}),
                                     {{"inlet", {face_named(geometry, "inlet face")}},
                                      {"tap", {face_named(geometry, "tap face")}}});

  std::vector<std::string> names;
  for (const Opening& opening : wetted.openings) names.push_back(opening.name);
  std::sort(names.begin(), names.end());
  const std::vector<std::string> expected = {"inlet", "tap 1", "tap 2", "tap 3", "tap 4"};
  BOOST_TEST(names == expected, boost::test_tools::per_element());
  for (const Opening& opening : wetted.openings) {
    if (opening.name == "inlet") continue;
    BOOST_TEST(near(opening.vector_area, Vector3d(0, 0, pi * std::pow(0.1875 * 25.4, 2)), exact));
  }
}

BOOST_AUTO_TEST_CASE(a_stop_that_the_fluid_does_not_meet_is_an_error) {
  const Geometry geometry = import(pot());
  const FaceId start = face_seen_from(geometry, {0, 0, 40});
  const FaceId top = plane_at(geometry, 80), bottom = plane_at(geometry, 0);
  const FaceId side = face_seen_from(geometry, {50, 0, 40});

  BOOST_TEST(refused(
      [&] {
        flood(geometry, start, {{"mouth", {top}}, {"drain", {bottom}}});
      },
      "never meets the stop \"drain\""));
  BOOST_TEST(refused(
      [&] {
        flood(geometry, start, {{"mouth", {top}}, {"drains", {bottom, side}}});
      },
      "never meets the stop \"drains\", 2 faces such as face "));
  BOOST_TEST(refused(
      [&] {
        flood(geometry, start, {{"wall", {start}}});
      },
      "is the face the fluid starts from"));
}

BOOST_AUTO_TEST_CASE(a_stop_of_several_faces_needs_only_one_that_the_fluid_meets) {
  const Geometry geometry = import(pot());
  const FaceId start = face_seen_from(geometry, {0, 0, 40});
  const FaceId top = plane_at(geometry, 80), bottom = plane_at(geometry, 0);

  const WettedSurface wetted = flood(geometry, start, {{"ends", {bottom, top}}});

  BOOST_REQUIRE_EQUAL(wetted.openings.size(), 1u);
  BOOST_TEST(wetted.openings.front().name == "ends");
  BOOST_TEST((wetted.openings.front().beyond == top));
}

BOOST_AUTO_TEST_CASE(a_point_in_material_or_in_the_open_is_refused) {
  const Geometry geometry = import(pot());

  BOOST_TEST(refused(
      [&] {
        face_seen_from(geometry, {0, 0, 10});
      },
      "(0, 0, 10) mm lies in the material of body 1 \"part\""));
  BOOST_TEST(refused([&] { face_seen_from(geometry, {0, 0, 9000}); }, "sees no face"));
}

BOOST_AUTO_TEST_CASE(the_first_face_seen_is_the_nearest) {
  const Geometry geometry = import(pot());

  BOOST_TEST((geometry.face(face_seen_from(geometry, {0, 0, 20.5})).kind == SurfaceKind::plane));
  BOOST_TEST((geometry.face(face_seen_from(geometry, {9, 0, 60})).kind == SurfaceKind::cylinder));
}

BOOST_AUTO_TEST_CASE(closed_cavities_have_their_volume) {
  const Geometry geometry = import(cut(
      block(60, 40, 40), {rod({20, 20, 10}, {0, 0, 1}, 10, 20), block(10, 10, 10, 40, 15, 15)}));

  std::vector<WettedSurface> cavities = closed_cavities(geometry);

  BOOST_REQUIRE_EQUAL(cavities.size(), 2u);
  std::sort(cavities.begin(), cavities.end(),
            [](const auto& a, const auto& b) { return a.volume < b.volume; });
  BOOST_TEST(cavities[0].volume == 1000.0, tolerance(exact));
  BOOST_TEST(cavities[0].area == 600.0, tolerance(exact));
  BOOST_TEST(cavities[1].volume == pi * 25 * 20, tolerance(integrated));
  const WettedSurface flooded = flood(geometry, face_seen_from(geometry, {20, 20, 15}), {});
  BOOST_TEST((flooded.faces == cavities[1].faces));
  BOOST_TEST(flooded.openings.empty());
}

BOOST_AUTO_TEST_CASE(a_body_that_is_not_modelled_holds_no_fluid) {
  const StepFile file({{cut(block(40, 40, 40), {block(10, 10, 10, 15, 15, 15)}), "hollow", {}, {}},
                       {block(40, 40, 40, 50), "full", {}, {}}});
  StepSource options = file.import();
  options.bodies = {"full"};

  BOOST_TEST(closed_cavities(import_step(file.import())).size() == 1u);
  BOOST_TEST(closed_cavities(import_step(options)).empty());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
