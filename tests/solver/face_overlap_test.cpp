// SPDX-License-Identifier: GPL-3.0-or-later
// Faces that meet without matching meshes: areas and integrals against closed forms.
#include "solver/interface/face_overlap.h"

#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "solver/interface/triangle_clip.h"
#include "tests/support/joined_blocks.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

constexpr double reach = 0.5;

/// A block of 10 x 8 x 3 mm, and one of 7 x 6 x 2 mm turned on its top with a gap between them.
TetrahedronMesh turned_blocks(double gap) {
  const Eigen::Matrix3d turn(Eigen::AngleAxisd(0.3, Eigen::Vector3d::UnitZ()));
  const auto upper = block_mesh({3, 4, 1}, [&](const Eigen::Vector3d& u) {
    return Eigen::Vector3d(turn * Eigen::Vector3d(7.0 * u.x(), 6.0 * u.y(), 2.0 * u.z()) +
                           Eigen::Vector3d(2.0, 0.1, 3.0 + gap));
  });
  return two_bodies(box_mesh({4, 3, 2}, {10.0, 8.0, 3.0}), upper);
}

FaceOverlap overlap(const TetrahedronMesh& mesh, FaceId first, FaceId second) {
  return overlap_faces(mesh, triangles_on(mesh, {first}, ""), triangles_on(mesh, {second}, ""),
                       reach);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(face_overlap)

BOOST_AUTO_TEST_CASE(two_triangles_have_their_common_polygon) {
  PlaneTriangle large, turned;
  large << 0, 4, 0, 0, 0, 4;
  turned << 2, 0, 2, 2, 2, 0;

  const auto polygon = clipped(large, turned);

  double twice = 0.0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const auto &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
    twice += a.x() * b.y() - a.y() * b.x();
  }
  BOOST_TEST(0.5 * twice == 2.0, tolerance(1e-14));
  PlaneTriangle apart = turned;
  apart.row(0).array() += 10.0;
  BOOST_TEST(clipped(large, apart).empty());
}

BOOST_AUTO_TEST_CASE(a_face_within_another_is_overlapped_whole_with_its_moments) {
  const auto mesh = turned_blocks(0.1);
  const FaceId above = of_second(zeta_low);

  const auto found = overlap(mesh, zeta_high, above);

  BOOST_TEST(found.face_area[0] == 80.0, tolerance(1e-12));
  BOOST_TEST(found.face_area[1] == 42.0, tolerance(1e-12));
  BOOST_TEST(found.area == 42.0, tolerance(1e-12));
  BOOST_TEST(overlap(mesh, above, zeta_high).area == 42.0, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(forces_go_into_both_sides_without_error) {
  const auto mesh = turned_blocks(0.1);
  const auto found = overlap(mesh, zeta_high, of_second(zeta_low));
  Eigen::VectorXd forces = Eigen::VectorXd::Zero(mesh.unknowns());

  for (const auto& point : found.points) {
    BOOST_TEST(point.distance == 0.1, tolerance(1e-9));
    BOOST_TEST(near(point.normal, Eigen::Vector3d::UnitZ(), 1e-12));
    for (int side = 0; side < 2; ++side)
      for (int a = 0; a < 6; ++a)
        forces.segment<3>(3 * Eigen::Index{mesh.triangles(a, point.sides[side].triangle)}) +=
            point.sides[side].shape[a] * point.area * (side == 0 ? -1.0 : 1.0) * point.normal;
  }

  const auto sum = resultant(mesh, forces);
  BOOST_TEST(sum.force.norm() < 1e-12 * found.area);
  BOOST_TEST(sum.moment.norm() < 1e-11 * found.area);
}

BOOST_AUTO_TEST_CASE(a_pin_in_a_hole_meets_it_all_round) {
  const auto quarter = [](double inner, double outer, int cells) {
    return block_mesh({1, cells, 2}, [=](const Eigen::Vector3d& u) {
      const double r = inner + (outer - inner) * u.x(), a = 0.5 * std::numbers::pi * u.y();
      return Eigen::Vector3d(r * std::cos(a), r * std::sin(a), 4.0 * u.z());
    });
  };
  const auto mesh = two_bodies(quarter(3.0, 5.0, 6), quarter(5.0, 8.0, 5));

  const auto found = overlap(mesh, xi_high, of_second(xi_low));

  // Quarter of the cylinder; the rest is the quadratic sides' departure from the circle and the
  // chords of their halves.
  BOOST_TEST(found.area == 2.0 * std::numbers::pi * 5.0, tolerance(2e-3));
  for (const auto& point : found.points) {
    const Eigen::Vector3d out(point.position.x(), point.position.y(), 0.0);
    BOOST_TEST(near(point.normal, out.normalized(), 5e-3));
    // A quadratic arc of 15 or 18 degrees is off by 1e-4 of the radius at most.
    BOOST_TEST(std::abs(point.distance) < 1e-3);
  }
}

BOOST_AUTO_TEST_CASE(round_a_bore_meshed_coarsely_no_area_is_turned_over) {
  // Beside an arc of 30 degrees a thin triangle whose third corner is near the arc: where the
  // chords of the arc's halves lie in the bore its mapping turns over.
  const auto on_circle = [](double radius, double degrees) {
    const double a = degrees * std::numbers::pi / 180.0;
    return Eigen::Vector3d(radius * std::cos(a), radius * std::sin(a), 0.0);
  };
  const double bore = 33.0;
  const Eigen::Vector3d first = on_circle(35.0, -5.0), last = on_circle(35.3, 19.0);
  // So that the diagonal, the thin triangle's side, is straight.
  const Eigen::Vector3d middle = on_circle(bore, 0.0) + last - on_circle(bore, 15.0);
  const auto thin = block_mesh({1, 1, 1}, [&](const Eigen::Vector3d& u) {
    const Eigen::Vector3d outer = (1.0 - u.y()) * (1.0 - 2.0 * u.y()) * first +
                                  4.0 * u.y() * (1.0 - u.y()) * middle +
                                  u.y() * (2.0 * u.y() - 1.0) * last;
    const Eigen::Vector3d at = (1.0 - u.x()) * on_circle(bore, 30.0 * u.y()) + u.x() * outer;
    return Eigen::Vector3d(at.x(), at.y(), -2.0 * u.z());
  });
  const auto mate = block_mesh({1, 2, 1}, [&](const Eigen::Vector3d& u) {
    const Eigen::Vector3d at = on_circle(bore + 5.0 * u.x(), 60.0 * u.y() - 30.0);
    return Eigen::Vector3d(at.x(), at.y(), 0.1 + 2.0 * u.z());
  });
  const auto mesh = two_bodies(thin, mate);

  const auto found = overlap(mesh, zeta_low, of_second(zeta_low));

  // All of the thin mesh's face, and at most what the arc's two chords cut off of the bore.
  const double arc = std::numbers::pi / 12.0;
  BOOST_TEST(found.area > found.face_area[0]);
  BOOST_TEST(found.area < found.face_area[0] + bore * bore * (arc - std::sin(arc)));
  // A quadratic arc of 30 degrees departs from its circle by r (1 - cos 15 degrees)^2 / 8.
  const double least_radius = bore - 5e-3;
  for (const auto& point : found.points) {
    BOOST_TEST(point.area > 0.0);
    BOOST_TEST(near(point.normal, Eigen::Vector3d::UnitZ(), 1e-12));
    BOOST_TEST(point.position.norm() > least_radius);
    BOOST_TEST((point.position + point.across).head<2>().norm() > least_radius);
    BOOST_TEST(point.distance == 0.1, tolerance(1e-9));
  }
}

BOOST_AUTO_TEST_CASE(faces_that_do_not_meet_are_refused) {
  const auto mesh = turned_blocks(2.0);

  BOOST_TEST(refused([&] { overlap(mesh, zeta_high, of_second(zeta_low)); }, "0.5 mm"));
  BOOST_TEST(refused([&] { overlap(mesh, zeta_high, xi_high); }, "share the node"));
}

BOOST_AUTO_TEST_SUITE_END()
