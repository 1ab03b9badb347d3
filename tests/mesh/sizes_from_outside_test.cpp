// SPDX-License-Identifier: GPL-3.0-or-later
// Edge lengths asked of the mesh from outside: in balls, and at points by an error estimate.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>
#include <random>
#include <set>

#include "mesh/tetrahedra/growing_sizes.h"
#include "mesh/tetrahedra/mesh_checks.h"
#include "mesh/tetrahedra/mesh_extent.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using Eigen::Vector3d;

namespace {

double distance(const TetrahedronMesh& mesh, Eigen::Index element, const Vector3d& point) {
  double least = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 4; ++i)
    least = std::min(least, (mesh.nodes.col(mesh.tetrahedra(i, element)) - point).norm());
  return least;
}

/// Of the elements with a corner in a ball [mm].
double longest_edge(const TetrahedronMesh& mesh, const SizeBall& ball) {
  double longest = 0.0;
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e) {
    if (distance(mesh, e, ball.centre) > ball.radius) continue;
    for (int i = 0; i < 4; ++i)
      for (int k = 0; k < i; ++k)
        longest = std::max(
            longest,
            (mesh.nodes.col(mesh.tetrahedra(i, e)) - mesh.nodes.col(mesh.tetrahedra(k, e))).norm());
  }
  return longest;
}

Eigen::Index elements_beyond(const TetrahedronMesh& mesh, const Vector3d& centre, double radius) {
  Eigen::Index count = 0;
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e)
    if (distance(mesh, e, centre) > radius) ++count;
  return count;
}

/// With a scaled Jacobian below 0.1; without balls there are none (measured).
Eigen::Index poor_elements(const TetrahedronMesh& mesh) {
  Eigen::Index count = 0;
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e)
    if (!(scaled_jacobian(mesh, e, jacobian_bounds(mesh, e)) >= 0.1)) ++count;
  return count;
}

/// Mean length of the edges on the surface, or of the others [mm].
double mean_edge(const TetrahedronMesh& mesh, bool on_surface) {
  using Edge = std::pair<int, int>;
  std::set<Edge> surface, edges;
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t)
    for (int i = 0; i < 3; ++i)
      surface.insert(std::minmax(int{mesh.triangles(i, t)}, int{mesh.triangles((i + 1) % 3, t)}));
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e)
    for (int i = 0; i < 4; ++i)
      for (int k = 0; k < i; ++k) {
        const Edge edge = std::minmax(int{mesh.tetrahedra(i, e)}, int{mesh.tetrahedra(k, e)});
        if ((surface.count(edge) > 0) == on_surface) edges.insert(edge);
      }
  double sum = 0.0;
  for (const auto& [a, b] : edges) sum += (mesh.nodes.col(a) - mesh.nodes.col(b)).norm();
  return sum / static_cast<double>(edges.size());
}

/// Two walls of 6 mm that meet at an inner edge, y = z = 6 mm.
TopoDS_Shape angle() { return fuse(block(60, 50, 6), {block(60, 6, 40)}); }

std::vector<SizedPoint> everywhere(double size, const Vector3d& low, const Vector3d& high) {
  std::vector<SizedPoint> points;
  for (double x = low.x(); x < high.x(); x += 0.5 * size)
    for (double y = low.y(); y < high.y(); y += 0.5 * size)
      for (double z = low.z(); z < high.z(); z += 0.5 * size) points.push_back({{x, y, z}, size});
  return points;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(sizes_from_outside)

BOOST_AUTO_TEST_CASE(no_edge_in_a_ball_exceeds_its_size) {
  const StepFile angular(angle()), round(tube(30, 24, 40));
  const auto longest = [](const StepFile& file, const SizeBall& ball) {
    MeshOptions options;
    options.balls = {ball};
    options.size_min = 4.0 * ball.size;  // the ball wins
    return longest_edge(mesh_step(file.import(), options).mesh, ball);
  };

  BOOST_TEST(longest(angular, {{30.3, 6, 6}, 1.0, 0.25}) <= 0.25);
  BOOST_TEST(longest(angular, {{20, 25, 6}, 1.0, 0.5}) <= 0.5);    // in the middle of a face
  BOOST_TEST(longest(angular, {{30, 25, 3}, 1.0, 0.5}) <= 0.5);    // inside a wall of columns
  BOOST_TEST(longest(round, {{24, 0, 13.3}, 1.0, 0.25}) <= 0.25);  // on a bore
  BOOST_TEST(longest(round, {{27, 0, 20}, 4.0, 2.0}) <= 2.0);      // as coarse as layers
}

BOOST_AUTO_TEST_CASE(a_ball_leaves_the_rest_of_the_part_alone) {
  const StepFile file(angle());
  MeshOptions options;
  options.layers = 1;  // else the plain mesh is one that was corrected for layers
  const TetrahedronMesh plain = mesh_step(file.import(), options).mesh;
  const Vector3d corner(30.3, 6, 6);
  options.balls = {{corner, 1.0, 0.25}};

  const MeshedGeometry meshed = mesh_step(file.import(), options);

  // Edges have grown from 0.1 mm to those of the part, 5.8 mm, at 1.25 mm + 5.7 mm / 0.35.
  const double reach = 17.5;
  const auto before = static_cast<double>(elements_beyond(plain, corner, reach)),
             after = static_cast<double>(elements_beyond(meshed.mesh, corner, reach));
  BOOST_TEST_MESSAGE("beyond: " << before << ", " << after << "; in all "
                                << plain.tetrahedron_count() << ", "
                                << meshed.mesh.tetrahedron_count());
  BOOST_TEST(after == before, boost::test_tools::tolerance(0.05));  // the mesher's scatter
}

BOOST_AUTO_TEST_CASE(walls_keep_their_layers_and_elements_their_shape_round_balls) {
  const StepFile file(tube(30, 24, 40));
  for (const double size : {4.0, 2.5, 1.5, 0.5}) {
    MeshOptions options;
    options.balls = {{{27, 0, 20}, 3.0, size}, {{0, 24, 10}, 1.0, 0.5 * size}};

    const MeshedGeometry meshed = mesh_step(file.import(), options);

    BOOST_TEST_MESSAGE("size " << size << ": " << meshed.mesh.tetrahedron_count() << " elements");
    BOOST_TEST(meshed.report.layers_min == 2);
    // Two triangles of the bore may hold a sliver between them, whatever is done inside: the
    // surface's mesh is fixed by then.
    BOOST_TEST(poor_elements(meshed.mesh) <= 1);
  }
}

BOOST_AUTO_TEST_CASE(the_mean_edge_at_wanted_sizes_is_as_wanted) {
  const StepFile file(angle());
  for (const double size : {4.0, 2.0}) {
    MeshOptions options;
    options.wanted_sizes = everywhere(size, {0, 0, 0}, {60, 50, 40});

    const TetrahedronMesh mesh = mesh_step(file.import(), options).mesh;

    BOOST_TEST(mean_edge(mesh, true) / size == 1.0, boost::test_tools::tolerance(0.15));
    BOOST_TEST(mean_edge(mesh, false) / size == 1.0, boost::test_tools::tolerance(0.15));
  }
}

BOOST_AUTO_TEST_CASE(no_wanted_size_goes_below_the_smallest_edge) {
  const StepFile file(angle());
  MeshOptions options;
  options.wanted_sizes = everywhere(2.0, {0, 0, 0}, {60, 50, 40});
  options.size_min = 4.0;

  const TetrahedronMesh mesh = mesh_step(file.import(), options).mesh;

  BOOST_TEST(mean_edge(mesh, true) / 4.0 == 1.0, boost::test_tools::tolerance(0.15));
}

BOOST_AUTO_TEST_CASE(the_bound_on_unknowns_holds_for_wanted_sizes_too) {
  const StepFile file(angle());
  MeshOptions options;
  options.wanted_sizes = everywhere(2.0, {0, 0, 0}, {60, 50, 40});
  options.unknowns_max = 60'000;

  const MeshedGeometry bounded = mesh_step(file.import(), options);

  BOOST_TEST(bounded.mesh.unknowns() <= options.unknowns_max);
  BOOST_TEST(bounded.mesh.unknowns() > options.unknowns_max / 3);
  BOOST_REQUIRE(!bounded.report.remedies.empty());
  BOOST_TEST(bounded.report.remedies[0].find("unknowns_max") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_extent_in_sizes_counts_every_ball) {
  const StepFile file(block(60, 60, 60));
  const Geometry geometry = import_step(file.import());
  std::vector<SurfaceRays> rays;
  rays.emplace_back(geometry, geometry.bodies[0].id);
  const double greatest = 5.0;
  const SizeBall whole{{30, 30, 30}, 1.0, 0.25}, half{{30, 30, 0}, 1.0, 0.25};

  // Round a ball, radially, in steps so small that their error does not count.
  double volume = std::pow(60.0 / greatest, 3), area = 6.0 * std::pow(60.0 / greatest, 2);
  const AskedSizes ball({}, {{Vector3d::Zero(), 1.0, 0.25}});
  const double step = 1e-3;
  for (double r = 0.5 * step; r < 15.0; r += step) {
    const Vector3d at(r, 0, 0);
    const double sphere = 4.0 * std::numbers::pi * r * r * step;
    const double inside = ball.inside(at, greatest), surface = ball.on_surface(at, greatest);
    volume += 1.5 * sphere * (std::pow(inside, -3) - std::pow(greatest, -3));
    area += 0.5 * sphere / r * (std::pow(surface, -2) - std::pow(greatest, -2));
  }
  const SizeField sizes({}, AskedSizes({}, {whole, half}), greatest);
  const SizedExtent extent = extent_in_sizes(geometry, rays, sizes);

  BOOST_TEST(extent.volume == volume, boost::test_tools::tolerance(0.05));  // random points
  BOOST_TEST(extent.area == area, boost::test_tools::tolerance(0.03));  // triangles of two edges
}

BOOST_AUTO_TEST_CASE(sizes_that_are_none_are_refused) {
  const StepFile file(block(10, 10, 10));
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refuses = [&](const std::vector<SizeBall>& balls,
                           const std::vector<SizedPoint>& wanted, const std::string& words) {
    MeshOptions options;
    options.balls = balls;
    options.wanted_sizes = wanted;
    return refused([&] { mesh_step(file.import(), options); }, words);
  };

  BOOST_TEST(refuses({{{1, 1, 1}, 1.0, 0.0}}, {}, "an edge length of 0 mm"));
  BOOST_TEST(refuses({{{1, 1, 1}, nan, 1.0}}, {}, "a ball's radius of nan mm"));
  BOOST_TEST(refuses({{{nan, 1, 1}, 1.0, 1.0}}, {}, "at (nan, 1, 1) mm"));
  BOOST_TEST(refuses({}, {{{1, 1, 1}, nan}}, "an edge length of nan mm"));
}

BOOST_AUTO_TEST_CASE(growing_sizes_are_those_of_all_points) {
  std::minstd_rand random(7);
  std::uniform_real_distribution<double> number(0.0, 1.0);
  const auto place = [&] { return Vector3d(number(random), number(random), number(random)); };
  std::vector<SizedPoint> points;
  for (int i = 0; i < 500; ++i) points.push_back({20.0 * place(), 0.1 + 5.0 * number(random)});
  const GrowingSizes sizes(points);

  for (int i = 0; i < 200; ++i) {
    const Vector3d at = 25.0 * place();
    double least = 4.0;
    for (const SizedPoint& point : points)
      least = std::min(least, point.size + size_growth * (at - point.point).norm());
    BOOST_TEST(sizes.at(at, 4.0) == least, boost::test_tools::tolerance(1e-14));
  }
  BOOST_TEST(GrowingSizes().at({0, 0, 0}, 4.0) == 4.0);
}

BOOST_AUTO_TEST_SUITE_END()
