// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/location/point_location.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <limits>

#include "solver/elements/shape_functions.h"
#include "solver/stress/stress_interpolation.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

/// A quarter pipe, 10 to 12 mm, whose elements are well curved.
TetrahedronMesh quarter_pipe() {
  return block_mesh({4, 2, 3}, [](const Eigen::Vector3d& u) {
    const double r = 10.0 + 2.0 * u.y(), angle = 0.5 * M_PI * u.x();
    return Eigen::Vector3d(r * std::cos(angle), r * std::sin(angle), 6.0 * u.z());
  });
}

Eigen::Vector3d position(const TetrahedronMesh& mesh, const MeshLocation& place) {
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  const auto N = tetrahedron_shape(place.local);
  for (int a = 0; a < 10; ++a) sum += N[a] * mesh.nodes.col(mesh.tetrahedra(a, place.tetrahedron));
  return sum;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(point_location)

BOOST_AUTO_TEST_CASE(points_inside_are_found_where_the_curved_map_puts_them) {
  const auto mesh = quarter_pipe();
  const PointLocator locator(mesh);

  for (double r : {10.2, 11.0, 11.9}) {
    for (double angle : {0.1, 0.7, 1.5}) {
      const Eigen::Vector3d point(r * std::cos(angle), r * std::sin(angle), 2.7);
      const auto place = locator.find(point, 0.0);
      BOOST_REQUIRE(place);
      BOOST_TEST(place->distance == 0.0);
      BOOST_TEST(near(position(mesh, *place), point, 1e-10));
      BOOST_TEST(place->local.minCoeff() >= 0.0);
      BOOST_TEST(place->local.sum() <= 1.0 + 1e-15);
    }
  }
}

BOOST_AUTO_TEST_CASE(every_node_is_found) {
  const auto mesh = quarter_pipe();
  const PointLocator locator(mesh);

  for (const auto& node : mesh.nodes.colwise()) {
    const auto place = locator.find(node, 0.0);
    BOOST_REQUIRE(place);
    BOOST_TEST(near(position(mesh, *place), node, 1e-10));
  }
}

BOOST_AUTO_TEST_CASE(points_outside_are_found_within_the_tolerance_only) {
  const auto mesh = quarter_pipe();
  const PointLocator locator(mesh);
  const Eigen::Vector3d outside =
      12.3 * Eigen::Vector3d(std::cos(0.8), std::sin(0.8), 0.0) + Eigen::Vector3d(0.0, 0.0, 3.0);

  const auto place = locator.find(outside, 0.5);

  BOOST_TEST(!locator.find(outside, 0.2));
  BOOST_REQUIRE(place);
  // The nearest place of the true surface is 0.3 away; clipping finds it nearly.
  BOOST_TEST(place->distance > 0.299);
  BOOST_TEST(place->distance < 0.33);
  BOOST_TEST((position(mesh, *place) - outside).norm() == place->distance,
             boost::test_tools::tolerance(1e-12));
  BOOST_TEST(!locator.find({0.0, 0.0, 3.0}, 1.0));
  BOOST_TEST(
      !locator.find(Eigen::Vector3d::Constant(std::numeric_limits<double>::quiet_NaN()), 1.0));
}

BOOST_AUTO_TEST_CASE(displacement_and_stress_linear_in_position_are_interpolated_exactly) {
  auto mesh = quarter_pipe();
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count() / 2; ++t)
    mesh.body_of_tetrahedron[t] = BodyId{2};
  const PointLocator locator(mesh);
  Eigen::Matrix3d G;
  G << 1, 2, 3, -1, 4, 2, 0, 5, -3;
  const Eigen::VectorXd displacement = Eigen::Matrix3Xd(G * mesh.nodes).reshaped();
  const auto points = stress_points(mesh);
  Eigen::Matrix<double, 6, Eigen::Dynamic> stress(6, points.size());
  for (std::size_t p = 0; p < points.size(); ++p)
    stress.col(p) << G * mesh.nodes.col(points[p].node),
        number(points[p].body) * mesh.nodes.col(points[p].node);

  for (double z : {0.4, 5.3}) {
    const Eigen::Vector3d x(11.0 * std::cos(0.9), 11.0 * std::sin(0.9), z);
    const auto place = locator.find(x, 0.0);
    BOOST_REQUIRE(place);
    const int body = number(mesh.body_of_tetrahedron[place->tetrahedron]);

    BOOST_TEST(near(displacement_at(mesh, displacement, *place), G * x, 1e-10));
    Vector6d expected;
    expected << G * x, body * x;
    BOOST_TEST(near(stress_at(mesh, points, stress, *place), expected, 1e-10));
  }
}

BOOST_AUTO_TEST_SUITE_END()
