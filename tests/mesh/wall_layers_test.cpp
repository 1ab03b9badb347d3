// SPDX-License-Identifier: GPL-3.0-or-later
// Layers through walls, counted again by brute force: every element is clipped against every ray.
#include "mesh/tetrahedra/wall_layers.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <limits>

#include "mesh/tetrahedra/tetrahedron_sides.h"
#include "tests/mesh/simple_parts.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;
using Eigen::Vector3d;

namespace {

/// The length of a straight element inside which a ray runs [mm].
double length_inside(const TetrahedronMesh& mesh, Eigen::Index element, const Vector3d& start,
                     const Vector3d& direction) {
  double enter = 0.0, leave = std::numeric_limits<double>::infinity();
  for (const auto& side : tetrahedron_sides) {
    const Vector3d a = mesh.nodes.col(mesh.tetrahedra(side[0], element));
    const Vector3d b = mesh.nodes.col(mesh.tetrahedra(side[1], element));
    const Vector3d c = mesh.nodes.col(mesh.tetrahedra(side[2], element));
    const Vector3d outward = (b - a).cross(c - a);
    const double speed = outward.dot(direction), distance = outward.dot(a - start);
    if (speed > 0.0) leave = std::min(leave, distance / speed);
    if (speed < 0.0) enter = std::max(enter, distance / speed);
    if (speed == 0.0 && distance < 0.0) return 0.0;
  }
  return std::max(0.0, leave - enter);
}

struct Counted {
  double wall = 0.0;
  int layers = 0;
};

/// For convex bodies and for walls that a ray leaves once within `reach` [mm].
Counted brute_count(const TetrahedronMesh& mesh, const WallCrossing& crossing, double reach) {
  std::vector<double> lengths;
  Counted counted;
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e) {
    const Vector3d at = mesh.nodes.col(mesh.tetrahedra(0, e));
    if ((at - crossing.position).norm() > reach) continue;
    lengths.push_back(length_inside(mesh, e, crossing.position, crossing.inward));
    counted.wall += lengths.back();
  }
  const double longest = *std::max_element(lengths.begin(), lengths.end());
  counted.layers = static_cast<int>(std::count_if(
      lengths.begin(), lengths.end(), [&](double l) { return l > 0.1 * counted.wall; }));
  counted.layers = std::max(counted.layers, static_cast<int>(counted.wall / longest));
  return counted;
}

/// Share of the tube's surface under which there are fewer layers [-].
double share_with_fewer(const TetrahedronMesh& mesh, int layers) {
  double area = 0.0, lacking = 0.0;
  for (const WallCrossing& crossing : cross_walls(mesh)) {
    area += crossing.area;
    if (brute_count(mesh, crossing, 15.0).layers < layers) lacking += crossing.area;
  }
  return lacking / area;
}

MeshedGeometry meshed(const TopoDS_Shape& shape, int layers) {
  MeshOptions options;
  options.layers = layers;
  options.size = 8.0;
  return mesh_step(StepFile(shape).import(), options);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(layers_through_walls)

BOOST_AUTO_TEST_CASE(the_walk_through_the_elements_agrees_with_clipping_all_of_them) {
  const TetrahedronMesh plate = meshed(block(40, 30, 4), 2).mesh;

  const std::vector<WallCrossing> crossings = cross_walls(plate);

  // Three rays a triangle; in a block none leaves at an edge, few are lost in rounding.
  BOOST_TEST(static_cast<double>(crossings.size()) > 2.9 * plate.triangle_count());
  int differing = 0;
  for (const WallCrossing& crossing : crossings) {
    const Counted counted = brute_count(plate, crossing, 60.0);
    BOOST_REQUIRE(std::abs(counted.wall - crossing.wall) < 1e-9 * 40.0);  // rounding [mm]
    if (counted.layers != crossing.layers) ++differing;
  }
  // A stretch of a tenth of the wall to the last digit may count on one side alone.
  BOOST_TEST(differing <= 2);
}

BOOST_AUTO_TEST_CASE(the_wall_of_a_plate_and_of_a_tube_is_measured) {
  const MeshReport plate = meshed(block(40, 30, 4), 2).report;
  const MeshReport round = meshed(tube(20, 15, 30), 2).report;

  BOOST_TEST(plate.wall_min_mm == 4.0, tolerance(1e-9));
  // Flat triangles of 12 a turn cut into the tube by 1 - cos(15 degrees) of its radius.
  BOOST_TEST(round.wall_min_mm > 5.0 - 0.7);
  BOOST_TEST(round.wall_min_mm < 5.0 + 0.1);
}

BOOST_AUTO_TEST_CASE(walls_get_two_layers_unless_more_are_asked_for) {
  const MeshedGeometry plate = meshed(block(40, 30, 4), 2);
  const MeshedGeometry round = meshed(tube(20, 15, 30), 2);

  BOOST_TEST(plate.report.layers_min >= 2);
  BOOST_TEST(round.report.layers_min >= 2);
  // The report is about the mesh: at most a hundredth of the area may have fewer.
  BOOST_TEST(share_with_fewer(round.mesh, 2) < 0.011);
}

BOOST_AUTO_TEST_CASE(more_layers_come_nearly_everywhere_and_where_they_do_not_is_listed) {
  const MeshedGeometry round = meshed(tube(20, 15, 30), 3);

  // Beside the rims a mesh without structure cannot be made to hold three everywhere.
  const double lacking = share_with_fewer(round.mesh, 3);
  BOOST_TEST(lacking < 0.05);
  BOOST_TEST((round.report.layers_min >= 3) == (lacking < 0.01));
  BOOST_TEST((lacking == 0.0) == round.report.thin_places.empty());
}

BOOST_AUTO_TEST_CASE(places_with_too_few_layers_are_listed_the_worst_first) {
  const TetrahedronMesh plate = meshed(block(40, 30, 4), 1).mesh;
  MeshReport report;

  report_layers(cross_walls(plate), 3, report);

  BOOST_TEST(report.layers_min < 3);
  BOOST_REQUIRE(!report.thin_places.empty());
  BOOST_TEST(report.thin_places.front().layers == 1);
  for (std::size_t i = 1; i < report.thin_places.size(); ++i)
    BOOST_TEST(report.thin_places[i - 1].layers <= report.thin_places[i].layers);
  report_layers(cross_walls(plate), 1, report);
  BOOST_TEST(report.thin_places.empty());
}

BOOST_AUTO_TEST_SUITE_END()
