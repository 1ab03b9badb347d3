// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/structured_mesh.h"

#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <map>
#include <set>

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

double corner_volume(const TetrahedronMesh& mesh, int t) {
  const auto x = [&](int i) { return mesh.nodes.col(mesh.tetrahedra(i, t)); };
  return (x(1) - x(0)).cross(x(2) - x(0)).dot(x(3) - x(0)) / 6.0;
}

TetrahedronMesh closed_ring() {
  return welded(block_mesh({8, 2, 3},
                           [](const Eigen::Vector3d& u) {
                             const double r = 2.0 + u.y(), angle = 2.0 * M_PI * u.x();
                             return Eigen::Vector3d(r * std::cos(angle), r * std::sin(angle),
                                                    u.z());
                           }),
                1e-9);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(structured_mesh)

BOOST_AUTO_TEST_CASE(six_tetrahedra_fill_every_cell_also_under_a_left_handed_map) {
  for (double sign : {1.0, -1.0}) {
    const auto mesh = block_mesh({2, 3, 4}, [sign](const Eigen::Vector3d& u) {
      return Eigen::Vector3d(sign * u.x(), 2.0 * u.y(), 3.0 * u.z());
    });

    double volume = 0.0;
    for (int t = 0; t < mesh.tetrahedron_count(); ++t) {
      BOOST_TEST(corner_volume(mesh, t) == 6.0 / (6 * 24), tolerance(1e-12));  // round-off
      volume += corner_volume(mesh, t);
    }
    BOOST_TEST(volume == 6.0, tolerance(1e-12));  // round-off
  }
}

BOOST_AUTO_TEST_CASE(triangles_face_outwards_and_carry_the_side_they_lie_on) {
  const auto mesh = box_mesh({2, 3, 2}, {1.0, 2.0, 3.0});
  const Eigen::Vector3d outward[6] = {{-1, 0, 0}, {1, 0, 0},  {0, -1, 0},
                                      {0, 1, 0},  {0, 0, -1}, {0, 0, 1}};
  const double side_area[6] = {6, 6, 3, 3, 2, 2};

  std::array<double, 6> area{};
  for (int t = 0; t < mesh.triangle_count(); ++t) {
    const auto x = [&](int i) { return mesh.nodes.col(mesh.triangles(i, t)); };
    const Eigen::Vector3d vector_area = 0.5 * (x(1) - x(0)).cross(x(2) - x(0));
    const auto side = index(mesh.face_of_triangle[t]);
    BOOST_TEST(vector_area.dot(outward[side]) == vector_area.norm(), tolerance(1e-12));
    area[side] += vector_area.norm();
    for (int i = 0; i < 3; ++i) {
      const Eigen::Vector3d middle = 0.5 * (x(i) + x((i + 1) % 3));
      BOOST_TEST((middle - x(3 + i)).norm() < 1e-14);
    }
  }
  for (int side = 0; side < 6; ++side) BOOST_TEST(area[side] == side_area[side], tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_welded_ring_has_no_seam) {
  const auto mesh = closed_ring();

  // 16 x 5 x 7 half-step nodes; without welding 17 x 5 x 7.
  BOOST_TEST(mesh.node_count() == 16 * 5 * 7);
  const std::set<FaceId> faces(mesh.face_of_triangle.begin(), mesh.face_of_triangle.end());
  BOOST_TEST(faces.size() == 4U);
  BOOST_TEST(!faces.contains(xi_low));
}

BOOST_AUTO_TEST_CASE(every_inner_triangle_is_shared_by_two_tetrahedra_with_equal_mid_nodes) {
  const auto mesh = closed_ring();
  std::map<std::set<int>, int> times;
  constexpr int faces[4][6] = {
      {0, 1, 2, 4, 5, 6}, {0, 1, 3, 4, 8, 7}, {1, 2, 3, 5, 9, 8}, {0, 2, 3, 6, 9, 7}};

  for (int t = 0; t < mesh.tetrahedron_count(); ++t) {
    for (const auto& face : faces) {
      std::set<int> nodes;
      for (int i : face) nodes.insert(mesh.tetrahedra(i, t));
      ++times[nodes];
    }
  }

  int once = 0;
  for (const auto& [nodes, count] : times) {
    BOOST_TEST(nodes.size() == 6U);
    BOOST_TEST(count <= 2);
    once += count == 1;
  }
  BOOST_TEST(once == mesh.triangle_count());
}

BOOST_AUTO_TEST_SUITE_END()
