// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/face_choice/mesh_loops.h"

#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "cases/face_choice/near_faces.h"
#include "cases/loads/wrench.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
namespace tt = boost::test_tools;

namespace {

/// A tapered tube away from the origin: bore radius 10 at the bottom, 7 at the top, 20 long.
TetrahedronMesh tapered_tube() {
  return welded(block_mesh({16, 1, 4},
                           [](const Eigen::Vector3d& x) {
                             const double angle = 2 * M_PI * x[0];
                             const double radius = 10 - 3 * x[2] + 4 * x[1];
                             return Eigen::Vector3d(5 + radius * std::cos(angle),
                                                    -8 + radius * std::sin(angle), 3 + 20 * x[2]);
                           }),
                1e-9);
}
// The map is left- or right-handed as it comes: eta_low is the bore either way.
constexpr FaceId bore = eta_low, bottom = zeta_low, top = zeta_high;

}  // namespace

BOOST_AUTO_TEST_SUITE(mesh_loops)

BOOST_AUTO_TEST_CASE(a_bore_ends_in_two_loops_of_its_circles_areas) {
  const auto mesh = tapered_tube();

  auto loops = boundary_loops(mesh, {bore});

  BOOST_REQUIRE(loops.size() == 2);
  if (loops[0].middle[2] > loops[1].middle[2]) std::swap(loops[0], loops[1]);
  // Quadratic edges over 22.5 degrees miss a circle's area by a few parts in 1e5.
  BOOST_TEST(loops[0].vector_area[2] == -M_PI * 100, tt::tolerance(1e-4));
  BOOST_TEST(loops[1].vector_area[2] == M_PI * 49, tt::tolerance(1e-4));
  BOOST_TEST(near(loops[1].middle, Eigen::Vector3d(5, -8, 23), 1e-12));
}

// A pressure all round a closed surface has neither force nor moment: faces and caps close it.
BOOST_AUTO_TEST_CASE(caps_and_faces_under_one_pressure_balance_to_rounding) {
  const auto mesh = tapered_tube();
  const auto forces = pressure_load(mesh, {bore}, [](const Eigen::Vector3d&) { return 2.0; });

  Wrench all{resultant(mesh, forces).force, resultant(mesh, forces).moment};
  for (const auto& loop : boundary_loops(mesh, {bore})) {
    all += {2.0 * loop.vector_area, 2.0 * loop.moment_area};
  }

  const double size = 2.0 * M_PI * 100;  // thrust on the larger cap [N]; arms are some 20 mm
  BOOST_TEST(all.force.norm() <= 1e-10 * size);
  BOOST_TEST(all.moment.norm() <= 1e-10 * size * 20);
}

BOOST_AUTO_TEST_CASE(faces_that_close_have_no_loops) {
  const auto mesh = box_mesh({2, 2, 2}, {3, 4, 5});

  BOOST_TEST(
      boundary_loops(mesh, {xi_low, xi_high, eta_low, eta_high, zeta_low, zeta_high}).empty());
  BOOST_TEST(boundary_loops(mesh, {xi_low, eta_low}).size() == 1);
}

BOOST_AUTO_TEST_CASE(a_wrench_is_spread_with_its_force_and_moment) {
  const auto mesh = tapered_tube();
  const Wrench wrench{{3, -4, 100}, {500, 20, -70}};

  const auto forces = spread_wrench(mesh, {top}, wrench);

  const auto sum = resultant(mesh, forces);
  BOOST_TEST(near(sum.force, wrench.force, 1e-10));
  BOOST_TEST(near(sum.moment, wrench.moment, 1e-10));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(points_near_faces)

BOOST_AUTO_TEST_CASE(distance_to_a_triangle_is_to_its_inside_an_edge_or_a_corner) {
  const Eigen::Vector3d a(0, 0, 0), b(4, 0, 0), c(0, 4, 0);

  BOOST_TEST(distance_to_triangle({1, 1, 2}, a, b, c) == 2.0);
  BOOST_TEST(distance_to_triangle({2, -3, 0}, a, b, c) == 3.0);
  BOOST_TEST(distance_to_triangle({7, 0, 4}, a, b, c) == 5.0);
  BOOST_TEST(distance_to_triangle({3, 3, 0}, a, b, c) == std::sqrt(2.0), tt::tolerance(1e-14));
}

// Cells of 1 mm: nodes lie every half millimetre.
BOOST_AUTO_TEST_CASE(points_within_reach_are_found_and_no_others) {
  const auto mesh = box_mesh({2, 2, 6}, {2, 2, 6});
  const auto points = stress_points(mesh);

  const auto near_bottom = near_faces(mesh, {bottom}, points, {1.25});

  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool expected = mesh.nodes(2, points[i].node) <= 1.25;
    BOOST_TEST((near_bottom[i] == 1) == expected);
  }
}

BOOST_AUTO_TEST_CASE(a_face_far_larger_than_the_reach_hides_no_point) {
  const auto mesh = box_mesh({1, 1, 200}, {80, 80, 40});  // one cell across, nodes every 0.1 mm
  const auto points = stress_points(mesh);

  const auto near_bottom = near_faces(mesh, {bottom}, points, {0.3});

  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool expected = mesh.nodes(2, points[i].node) <= 0.3 + 1e-9;
    BOOST_TEST((near_bottom[i] == 1) == expected);
  }
}

BOOST_AUTO_TEST_CASE(another_bodys_faces_do_not_count) {
  auto mesh = joined(box_mesh({1, 1, 1}, {1, 1, 1}), box_mesh({1, 1, 1}, {1, 1, 1}), 6);
  for (auto t = mesh.tetrahedron_count() / 2; t < mesh.tetrahedron_count(); ++t) {
    mesh.body_of_tetrahedron[t] = BodyId{2};
  }
  const auto points = stress_points(mesh);

  const auto near_bottom = near_faces(mesh, {bottom}, points, {10.0, 10.0});

  for (std::size_t i = 0; i < points.size(); ++i) {
    BOOST_TEST((near_bottom[i] == 1) == (points[i].body == BodyId{1}));
  }
}

BOOST_AUTO_TEST_SUITE_END()
