// SPDX-License-Identifier: GPL-3.0-or-later
#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <map>
#include <numbers>

#include "mesh/tetrahedra/mesh_checks.h"
#include "tests/mesh/simple_parts.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

/// The volume inside the boundary triangles taken flat: a third of the integral of x . n.
double enclosed_by_corners(const TetrahedronMesh& mesh) {
  double volume = 0.0;
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t) {
    const Eigen::Vector3d a = mesh.nodes.col(mesh.triangles(0, t)),
                          b = mesh.nodes.col(mesh.triangles(1, t)),
                          c = mesh.nodes.col(mesh.triangles(2, t));
    volume += a.dot(b.cross(c)) / 6.0;
  }
  return volume;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(meshed_volume)

BOOST_AUTO_TEST_CASE(a_block_is_filled_exactly) {
  const StepFile file(block(30, 20, 10));

  const MeshedGeometry meshed = mesh_step(file.import(), {});

  // Plane faces: rounding only.
  BOOST_TEST(meshed.report.volume_mm3 == 6000.0, tolerance(1e-12));
  BOOST_TEST(meshed.report.cad_volume_mm3 == 6000.0, tolerance(1e-9));
  BOOST_TEST(mesh_volume(meshed.mesh) == 6000.0, tolerance(1e-12));
  BOOST_TEST(enclosed_by_corners(meshed.mesh) == 6000.0, tolerance(1e-12));
  BOOST_TEST(meshed.report.curved_elements_straightened == 0);
  BOOST_TEST(meshed.report.remedies.empty());
}

BOOST_AUTO_TEST_CASE(every_triangle_lies_on_the_face_that_it_names) {
  const StepFile file(block(30, 20, 10));

  const MeshedGeometry meshed = mesh_step(file.import(), {});

  std::map<FaceId, double> area;
  for (Eigen::Index t = 0; t < meshed.mesh.triangle_count(); ++t) {
    const auto& mesh = meshed.mesh;
    const Eigen::Vector3d a = mesh.nodes.col(mesh.triangles(0, t)),
                          b = mesh.nodes.col(mesh.triangles(1, t)),
                          c = mesh.nodes.col(mesh.triangles(2, t));
    const FaceId id = mesh.face_of_triangle[static_cast<std::size_t>(t)];
    const CadFace& face = meshed.geometry.face(id);
    BOOST_REQUIRE(std::abs((a - face.origin).dot(face.axis)) < 1e-9);  // on its plane [mm]
    BOOST_REQUIRE((b - a).cross(c - a).dot(face.axis) > 0.0);          // outward
    area[id] += 0.5 * (b - a).cross(c - a).norm();
  }
  BOOST_TEST(area.size() == 6u);
  for (const CadFace& face : meshed.geometry.faces)
    BOOST_TEST(area[face.id] == face.area, tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_ball_and_a_tube_are_round) {
  const double ball_volume = 4.0 / 3.0 * std::numbers::pi * 1000.0;
  const double tube_volume = std::numbers::pi * (20.0 * 20.0 - 15.0 * 15.0) * 30.0;
  const StepFile ball_file(ball(10)), tube_file(tube(20, 15, 30));

  const double ball_meshed = mesh_step(ball_file.import(), {}).report.volume_mm3;
  const double tube_meshed = mesh_step(tube_file.import(), {}).report.volume_mm3;

  // A parabola through three points of a circle misses it by about angle^4/400 of the radius,
  // with 12 elements per turn 2e-4; straight edges would miss 2 %.
  BOOST_TEST(ball_meshed == ball_volume, tolerance(5e-4));
  BOOST_TEST(tube_meshed == tube_volume, tolerance(5e-4));
}

BOOST_AUTO_TEST_SUITE_END()
