// SPDX-License-Identifier: GPL-3.0-or-later
// Imported geometry against the closed forms of elementary solids.
#include <BRepBuilderAPI_NurbsConvert.hxx>
#include <BRepPrimAPI_MakeCone.hxx>
#include <BRepPrimAPI_MakeTorus.hxx>
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <gp_Ax1.hxx>
#include <gp_Trsf.hxx>

#include "mesh/meshing.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/near.h"
#include "tools/parts/revolved_profile.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;
using Eigen::Vector3d;

constexpr double pi = M_PI;
// What the STEP file's 15 digits and Gauss's rule leave of an exact value.
constexpr double exact = 1e-9;
// Where an integral over a curved face is refined until two steps agree to 1e-7.
constexpr double integrated = 1e-7;
// A box is climbed to in steps of 1e-5 of the parameter, and errs by their square.
constexpr double boxed = 1e-8;

Geometry import(const TopoDS_Shape& shape) { return import_step(StepFile(shape).import()); }

const CadFace& only_face(const Geometry& geometry, SurfaceKind kind) {
  const auto is_it = [&](const CadFace& face) { return face.kind == kind; };
  BOOST_REQUIRE_EQUAL(std::count_if(geometry.faces.begin(), geometry.faces.end(), is_it), 1);
  return *std::find_if(geometry.faces.begin(), geometry.faces.end(), is_it);
}

/// What holds of every closed body, whatever its shape.
void check_closure(const Geometry& geometry) {
  for (const Body& body : geometry.bodies) {
    Vector3d area = Vector3d::Zero();
    double volume = 0.0;
    for (const FaceId face : body.faces) {
      area += geometry.face(face).vector_area;
      volume += geometry.face(face).cone_volume;
    }
    BOOST_TEST(area.norm() < 1e-12 * body.area);  // rounding only
    BOOST_TEST(volume == body.volume, tolerance(integrated));
  }
  for (const CadEdge& edge : geometry.edges) {
    BOOST_TEST(edge.faces.size() == (edge.degenerate ? 1u : 2u));
  }
}

struct TriangleSums {
  double volume = 0.0;
  double area = 0.0;
};

TriangleSums sums_of(const SurfaceTriangles& surface) {
  TriangleSums sums;
  for (const auto& t : surface.triangles.colwise()) {
    const Vector3d a = surface.points.col(t[0]), b = surface.points.col(t[1]),
                   c = surface.points.col(t[2]);
    sums.volume += a.dot(b.cross(c)) / 6.0;
    sums.area += 0.5 * (b - a).cross(c - a).norm();
  }
  return sums;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(imported_geometry)

BOOST_AUTO_TEST_CASE(a_block_has_six_planes_that_look_outward) {
  const Geometry geometry = import(block(30, 20, 10, 1, 2, 3));

  BOOST_REQUIRE_EQUAL(geometry.bodies.size(), 1u);
  BOOST_TEST(geometry.faces.size() == 6u);
  BOOST_TEST(geometry.edges.size() == 12u);
  const Body& body = geometry.bodies.front();
  BOOST_TEST(body.volume == 6000.0, tolerance(exact));
  BOOST_TEST(body.area == 2200.0, tolerance(exact));
  BOOST_TEST(near(body.centroid, Vector3d(16, 12, 8), exact));
  BOOST_TEST(near(geometry.box.low, Vector3d(1, 2, 3), exact));
  BOOST_TEST(near(geometry.box.high, Vector3d(31, 22, 13), exact));
  BOOST_TEST((body.shells.size() == 1u && body.shells.front().size() == 6u));
  for (const CadFace& face : geometry.faces) {
    BOOST_TEST((face.kind == SurfaceKind::plane));
    BOOST_TEST(face.axis.dot(face.centroid - body.centroid) > 0.0);
    BOOST_TEST(near(face.vector_area, Vector3d(face.area * face.axis), exact));
    BOOST_REQUIRE_EQUAL(face.loops.size(), 1u);
    BOOST_TEST(face.loops.front().size() == 4u);
  }
  check_closure(geometry);
}

BOOST_AUTO_TEST_CASE(a_tube_has_a_hollow_and_a_full_cylinder) {
  const Geometry geometry = import(tube(15, 10, 40));

  const Body& body = geometry.bodies.front();
  BOOST_TEST(body.volume == pi * (225 - 100) * 40, tolerance(integrated));
  BOOST_TEST(near(body.centroid, Vector3d(0, 0, 20), integrated));
  BOOST_TEST(near(geometry.box.high, Vector3d(15, 15, 40), boxed));
  int hollow = 0;
  for (const CadFace& face : geometry.faces) {
    if (face.kind != SurfaceKind::cylinder) {
      BOOST_TEST(face.loops.size() == 2u);  // the ring's outer edge first
      const double outer = *geometry.edge(face.loops[0].front().edge).circle_radius;
      BOOST_TEST(outer == 15.0, tolerance(exact));
      continue;
    }
    hollow += face.hollow;
    BOOST_TEST(face.radius == (face.hollow ? 10.0 : 15.0), tolerance(exact));
    BOOST_TEST(face.area == 2 * pi * face.radius * 40, tolerance(integrated));
    BOOST_TEST(face.turn == 2 * pi, tolerance(exact));
    BOOST_TEST(std::abs(face.axis.z()) == 1.0, tolerance(exact));
    BOOST_TEST(face.along_high - face.along_low == 40.0, tolerance(exact));
    BOOST_TEST(face.vector_area.norm() < 1e-9 * face.area);
  }
  BOOST_TEST(hollow == 1);
  check_closure(geometry);
}

BOOST_AUTO_TEST_CASE(a_ball_is_one_sphere_with_poles) {
  const Geometry geometry = import(ball(7));

  const CadFace& face = only_face(geometry, SurfaceKind::sphere);
  BOOST_TEST(face.radius == 7.0, tolerance(exact));
  BOOST_TEST(!face.hollow);
  BOOST_TEST(face.area == 4 * pi * 49, tolerance(integrated));
  BOOST_TEST(geometry.bodies.front().volume == 4.0 / 3.0 * pi * 343, tolerance(integrated));
  BOOST_TEST(near(face.box.low, Vector3d(-7, -7, -7), boxed));
  BOOST_TEST(std::count_if(geometry.edges.begin(), geometry.edges.end(),
                           [](const CadEdge& edge) { return edge.degenerate; }) == 2);
  check_closure(geometry);
}

BOOST_AUTO_TEST_CASE(a_ring_has_the_area_and_volume_of_pappus) {
  const Geometry geometry = import(BRepPrimAPI_MakeTorus(20, 6).Shape());

  const CadFace& face = only_face(geometry, SurfaceKind::torus);
  BOOST_TEST(face.radius == 20.0, tolerance(exact));
  BOOST_TEST(face.minor_radius == 6.0, tolerance(exact));
  BOOST_TEST(!face.hollow);
  BOOST_TEST(face.area == 4 * pi * pi * 20 * 6, tolerance(integrated));
  BOOST_TEST(geometry.bodies.front().volume == 2 * pi * pi * 20 * 36, tolerance(integrated));
  BOOST_TEST(near(face.box.high, Vector3d(26, 26, 6), boxed));
}

BOOST_AUTO_TEST_CASE(an_arc_turned_about_an_axis_is_a_torus_however_it_is_written) {
  // A pin of radius 10 with its upper edge rounded by 3: to the kernel a surface of revolution.
  const Geometry geometry =
      import(parts::revolved_profile({{0.0, 0.0}, {10.0, 0.0}, {10.0, 20.0, 3.0}, {0.0, 20.0}}));

  const CadFace& face = only_face(geometry, SurfaceKind::torus);
  BOOST_TEST(face.radius == 7.0, tolerance(exact));
  BOOST_TEST(face.minor_radius == 3.0, tolerance(exact));
  BOOST_TEST(near(face.origin, Vector3d(0, 0, 17), exact));
  BOOST_TEST(!face.hollow);
  // A quarter of a tube on the ring's outside: Pappus.
  BOOST_TEST(face.area == 2 * pi * (7.0 + 3.0 * 2 / pi) * 0.5 * pi * 3.0, tolerance(integrated));
}

BOOST_AUTO_TEST_CASE(a_turned_arc_moves_with_its_part) {
  gp_Trsf move;
  move.SetRotation(gp_Ax1(gp_Pnt(5, 6, 7), gp::DX()), M_PI / 2);
  const Geometry geometry =
      import(parts::revolved_profile({{0, 0}, {20, 0}, {20, 10, 3}, {0, 10}}).Moved(move));

  const CadFace& face = only_face(geometry, SurfaceKind::torus);
  BOOST_TEST(face.radius == 17.0, tolerance(exact));
  BOOST_TEST(face.turn == 2 * pi, tolerance(exact));
  // (0, 0, 7) and z turned a quarter about the line through (5, 6, 7) along x.
  BOOST_TEST(near(face.origin, Vector3d(0, 6, 1), exact));
  BOOST_TEST(std::abs(face.axis.y()) == 1.0, tolerance(exact));
}

BOOST_AUTO_TEST_CASE(a_cone_widens_along_its_axis) {
  const Geometry geometry = import(BRepPrimAPI_MakeCone(12, 5, 21).Shape());

  const CadFace& face = only_face(geometry, SurfaceKind::cone);
  BOOST_TEST(face.half_angle == std::atan(7.0 / 21.0), tolerance(exact));
  BOOST_TEST(near(face.axis, Vector3d(0, 0, -1), exact));
  BOOST_TEST(face.along_high - face.along_low == 21.0, tolerance(exact));
  const double radius_at_top =
      face.radius + (Vector3d(0, 0, 21) - face.origin).dot(face.axis) * std::tan(face.half_angle);
  BOOST_TEST(radius_at_top == 5.0, tolerance(exact));
  BOOST_TEST(geometry.bodies.front().volume == pi * 21 / 3 * (144 + 60 + 25),
             tolerance(integrated));
}

BOOST_AUTO_TEST_CASE(edges_know_their_circles_and_swept_areas) {
  const Geometry geometry = import(tube(15, 10, 40));

  int circles = 0;
  for (const CadEdge& edge : geometry.edges) {
    if (!edge.circle_radius) continue;
    ++circles;
    const double radius = *edge.circle_radius;
    BOOST_TEST(edge.closed);
    BOOST_TEST(edge.length == 2 * pi * radius, tolerance(exact));
    BOOST_TEST((edge.centroid - edge.circle_centre).norm() < 1e-9);
    // A circle about the z axis sweeps its disc, counter-clockwise about its own axis.
    BOOST_TEST(near(edge.swept_area, Vector3d(pi * radius * radius * edge.circle_axis), exact));
  }
  BOOST_TEST(circles == 4);
}

BOOST_AUTO_TEST_CASE(the_boundary_of_every_face_is_a_chain) {
  // Half the sum of r x dr over a loop depends on the origin unless the loop closes.
  for (const Vector3d& at : {Vector3d(0, 0, 0), Vector3d(1000, -500, 300)}) {
    const TopoDS_Shape part = cut(block(30, 20, 10, at.x(), at.y(), at.z()),
                                  {rod(at + Vector3d(8, 10, -1), {0, 0, 1}, 6, 20),
                                   rod(at + Vector3d(22, -1, 5), {0, 1, 0}, 4, 30)});
    const Geometry geometry = import(part);
    for (const CadFace& face : geometry.faces) {
      if (face.kind != SurfaceKind::plane) continue;
      BOOST_TEST(near(face.vector_area, Vector3d(face.area * face.axis), integrated));
    }
    check_closure(geometry);
    BOOST_TEST(geometry.bodies.front().volume == 6000 - pi * 9 * 10 - pi * 4 * 20,
               tolerance(integrated));
  }
}

BOOST_AUTO_TEST_CASE(planes_and_cylinders_written_as_splines_are_recognised) {
  const TopoDS_Shape part = cut(block(40, 30, 20), {rod({20, 15, -1}, {0, 0, 1}, 12, 40)});
  const TopoDS_Shape ground =
      fuse(block(60, 60, 10),
           {BRepPrimAPI_MakeCone(gp_Ax2(gp_Pnt(30, 30, 10), gp::DZ()), 20, 8, 15).Shape()});

  const Geometry bored = import(BRepBuilderAPI_NurbsConvert(part, true).Shape());
  const Geometry coned = import(BRepBuilderAPI_NurbsConvert(ground, true).Shape());
  const Geometry round = import(BRepBuilderAPI_NurbsConvert(ball(9), true).Shape());

  const CadFace& bore = only_face(bored, SurfaceKind::cylinder);
  BOOST_TEST(bore.hollow);
  BOOST_TEST(bore.radius == 6.0, tolerance(1e-6));  // fitted
  BOOST_TEST(bore.turn == 2 * pi, tolerance(1e-6));
  BOOST_TEST(std::abs(bore.axis.z()) == 1.0, tolerance(1e-6));
  BOOST_TEST(bore.along_high - bore.along_low == 20.0, tolerance(1e-6));
  BOOST_TEST(std::count_if(bored.faces.begin(), bored.faces.end(), [](const CadFace& face) {
               return face.kind == SurfaceKind::plane;
             }) == 6);
  BOOST_TEST(bored.bodies.front().volume == 24000 - pi * 36 * 20, tolerance(integrated));
  const CadFace& cone = only_face(coned, SurfaceKind::cone);
  BOOST_TEST(cone.half_angle == std::atan(12.0 / 15.0), tolerance(1e-6));
  BOOST_TEST(!cone.hollow);
  BOOST_TEST(only_face(round, SurfaceKind::sphere).radius == 9.0, tolerance(1e-6));
}

BOOST_AUTO_TEST_CASE(the_box_leaves_out_what_is_cut_away) {
  // The cylinder's parameters reach to z = 40, what is left of it only to the slanting cut.
  const TopoDS_Shape part =
      cut(rod({0, 0, 0}, {0, 0, 1}, 20, 40), {rod({-50, 0, 40}, {1, 0, 0}, 40, 100)});

  const Geometry geometry = import(part);

  BOOST_TEST(near(geometry.box.low, Vector3d(-10, -10, 0), boxed));
  // The cutter's circle leaves z = 40 - sqrt(400 - y^2) at most, at y = 10.
  BOOST_TEST(near(geometry.box.high, Vector3d(10, 10, 40 - std::sqrt(300.0)), 1e-6));
}

BOOST_AUTO_TEST_CASE(the_triangles_close_and_look_outward) {
  const Geometry geometry = import(cut(block(40, 30, 20), {rod({20, 15, -1}, {0, 0, 1}, 12, 40)}));

  const TriangleSums sums = sums_of(geometry.surface);

  // Chords of a quarter radian on the bore: its area is short by 1 - sin(1/8)/(1/8) at most.
  BOOST_TEST(sums.volume == geometry.bodies.front().volume, tolerance(0.003));
  BOOST_TEST(sums.area == geometry.bodies.front().area, tolerance(0.003));
  BOOST_TEST(geometry.surface.face_of_triangle.size() ==
             static_cast<std::size_t>(geometry.surface.triangles.cols()));
}

BOOST_AUTO_TEST_CASE(a_void_inside_is_a_second_shell) {
  const Geometry geometry = import(cut(block(40, 40, 40), {rod({20, 20, 10}, {0, 0, 1}, 10, 20)}));

  const Body& body = geometry.bodies.front();
  BOOST_REQUIRE_EQUAL(body.shells.size(), 2u);
  BOOST_TEST(body.shells[0].size() == 6u);
  BOOST_TEST(body.shells[1].size() == 3u);
  BOOST_TEST(body.volume == 64000 - pi * 25 * 20, tolerance(integrated));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
