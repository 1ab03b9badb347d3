// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/bead_fit.h"

#include <Eigen/LU>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <functional>
#include <numbers>

#include "solver/stress/clipped_tetrahedron.h"
#include "tests/support/imposed_stress.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using Eigen::Vector3d;
using std::numbers::pi;

namespace {

double fitted_at(const TetrahedronMesh& mesh, const Vector3d& point, double bead,
                 const std::function<double(const Vector3d&)>& field) {
  const StressPoint place{nearest_node(mesh, point), mesh.body_of_tetrahedron.front(), 0};
  BOOST_TEST((mesh.nodes.col(place.node) - point).norm() < 1e-9);
  return BeadFit(mesh, {place}, {bead}).of(imposed_stress(mesh, all_components(field)))(2, 0);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(clipped_tetrahedra)

BOOST_AUTO_TEST_CASE(an_octant_of_a_ball_has_the_moments_of_a_handbook) {
  StraightTetrahedron corner;
  corner << Vector3d::Zero(), 4.0 * Eigen::Matrix3d::Identity();
  constexpr double R = 1.5;
  const Eigen::Matrix4d moments = clipped_moments(corner, {Vector3d::Zero(), R}).value();
  // By the rule across the side; 2e-4 was found.
  const auto close = boost::test_tools::tolerance(5e-4);
  const Eigen::RowVector4d sums = moments.colwise().sum();
  BOOST_TEST(sums[0] == pi * R * R * R / 6, close);
  BOOST_TEST(sums[1] == pi * R * R * R / 16, close);
  // Barycentric coordinate 1 is x / 4: second moments of the octant are pi R^5 / 30, products
  // R^5 / 15.
  BOOST_TEST(moments(1, 1) == pi * std::pow(R, 4) / 30 / 4, close);
  BOOST_TEST(moments(1, 2) == std::pow(R, 4) / 15 / 4, close);
}

BOOST_AUTO_TEST_CASE(a_ball_s_parts_in_many_tetrahedra_are_the_ball) {
  const auto mesh = box_mesh({3, 3, 3}, {3.0, 3.0, 3.0});
  // Nowhere near a node, and all inside.
  const Ball ball{{1.37, 1.61, 1.45}, 1.1};
  Eigen::RowVector4d sums = Eigen::RowVector4d::Zero();
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    StraightTetrahedron corners;
    for (int v = 0; v < 4; ++v) corners.col(v) = mesh.nodes.col(mesh.tetrahedra(v, t));
    if (const auto moments = clipped_moments(corners, ball)) sums += moments->colwise().sum();
  }
  const double volume = 4.0 / 3.0 * pi * std::pow(ball.radius, 3);
  // By the rule across the sides; 2e-5 was found.
  BOOST_TEST(sums[0] == volume, boost::test_tools::tolerance(1e-4));
  BOOST_TEST(sums.tail<3>().norm() < 1e-4 * volume);
}

BOOST_AUTO_TEST_CASE(a_tetrahedron_inside_is_integrated_exactly_one_outside_not_at_all) {
  StraightTetrahedron corners;
  corners << Vector3d(0.1, 0.2, 0.1), Vector3d(0.4, 0.2, 0.0), Vector3d(0.2, 0.5, 0.1),
      Vector3d(0.2, 0.3, 0.6);
  const double volume = (corners.rightCols<3>().colwise() - corners.col(0)).determinant() / 6;
  const Eigen::Matrix4d inside = clipped_moments(corners, {Vector3d::Zero(), 2.0}).value();
  BOOST_TEST(inside.col(0).isApproxToConstant(volume / 4, 1e-12));
  BOOST_TEST(near(Vector3d(inside.rightCols<3>().colwise().sum().transpose()),
                  Vector3d(volume * corners.rowwise().mean() / 2.0), 1e-12));
  BOOST_TEST(!clipped_moments(corners, {{3.0, 0.0, 0.0}, 2.5}).has_value());
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(bead_fit)

BOOST_AUTO_TEST_CASE(a_linear_field_comes_through_everywhere_whatever_the_bead) {
  const auto mesh = box_mesh({3, 4, 2}, {3.0, 4.0, 1.0});
  const auto field = [](const Vector3d& at) {
    return 20.0 + 7.0 * at.x() - 3.0 * at.y() + 11.0 * at.z();
  };
  const auto points = stress_points(mesh);
  const auto stress = imposed_stress(mesh, all_components(field));
  for (const double bead : {0.2, 1.0, 3.0}) {
    const auto fitted = BeadFit(mesh, points, {bead}).of(stress);
    for (std::size_t p = 0; p < points.size(); ++p)
      // Round-off of the 4x4 inverse, for a field of the order of 50.
      BOOST_TEST(std::abs(fitted(0, static_cast<int>(p)) - field(mesh.nodes.col(points[p].node))) <
                 1e-10);
  }
}

BOOST_AUTO_TEST_CASE(at_a_surface_a_curved_field_is_fitted_as_by_hand) {
  // z^2 over half a ball of radius 1: moments 2 pi/3, pi/4, 2 pi/15 of 1, z, z^2 and pi/12 of z^3.
  constexpr double by_hand = -2.2 / 19.0;
  const auto mesh = box_mesh({16, 16, 8}, {2.0, 2.0, 1.0});
  const double fitted =
      fitted_at(mesh, {1, 1, 0}, 2.0, [](const Vector3d& at) { return at.z() * at.z(); });
  // The elements' own fit of a parabola over edges of 1/8; 4e-4 was found.
  BOOST_TEST(std::abs(fitted - by_hand) < 1e-3);
}

BOOST_AUTO_TEST_CASE(a_point_of_tangled_elements_gets_no_number) {
  auto mesh = box_mesh({1, 1, 1}, {1.0, 1.0, 1.0});
  const StressPoint point{nearest_node(mesh, {0, 0, 0}), mesh.body_of_tetrahedron.front(), 0};
  mesh.nodes.row(2) *= -1.0;  // inside out
  const auto uniform = imposed_stress(mesh, all_components([](const Vector3d&) { return 1.0; }));
  BOOST_TEST(std::isnan(BeadFit(mesh, {point}, {0.5}).of(uniform)(0, 0)));
}

BOOST_AUTO_TEST_CASE(nothing_leaks_into_another_body) {
  const auto left = box_mesh({3, 3, 3}, {3.0, 3.0, 3.0});
  auto right = left;
  right.nodes.row(0).array() += 3.0;
  const auto side = [](const Vector3d& at) { return at.x() < 3.0 ? 1.0 : 1000.0; };
  auto bodies = welded(joined(left, right, 10), 1e-9);
  for (Eigen::Index t = 0; t < bodies.tetrahedron_count(); ++t)
    bodies.body_of_tetrahedron[t] = BodyId{t < left.tetrahedron_count() ? 1 : 2};
  const int node = nearest_node(bodies, {3, 1, 1});
  const auto fitted = BeadFit(bodies, {{node, BodyId{1}, 0}, {node, BodyId{2}, 0}}, {2.5, 2.5})
                          .of(imposed_stress(bodies, all_components(side)));
  BOOST_TEST(fitted(0, 0) == 1.0, boost::test_tools::tolerance(1e-10));
  BOOST_TEST(fitted(0, 1) == 1000.0, boost::test_tools::tolerance(1e-10));
}

BOOST_AUTO_TEST_SUITE_END()
