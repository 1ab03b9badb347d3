// SPDX-License-Identifier: GPL-3.0-or-later
// Edges at which supports make stress without limit, and edges found by stress that grows.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <filesystem>

#include "cases/loads/support_edges.h"
#include "cases/studies/growing_edges.h"
#include "mesh/meshing.h"
#include "tests/mesh/simple_parts.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

FaceId plane_facing(const Geometry& geometry, const Eigen::Vector3d& normal) {
  const auto face = std::ranges::find_if(geometry.faces, [&](const CadFace& candidate) {
    return candidate.kind == SurfaceKind::plane && candidate.axis.dot(normal) > 1.0 - 1e-9;
  });
  BOOST_REQUIRE(face != geometry.faces.end());
  return face->id;
}

FaceId named(const Geometry& geometry, const std::string& name) {
  const auto face = std::ranges::find(geometry.faces, name, &CadFace::name);
  BOOST_REQUIRE(face != geometry.faces.end());
  return face->id;
}

/// A pass whose governing factor is 4, with one edge's raw factor.
MeshPass pass_with(double raw_factor, double edge_mm) {
  ModeResult governing{};
  governing.mode = FailureMode::interlayer;
  governing.factor = {4.0, 4.0, 4.0};
  MeshPass pass{1000, governing, MeshError{0.1, 0.2}, std::nullopt, 1.0};
  pass.raw_at_edges[EdgeId{7}] = {raw_factor, edge_mm};
  return pass;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(edges_without_a_limit)

BOOST_AUTO_TEST_CASE(a_block_slides_in_its_planes_of_symmetry_and_sticks_to_its_clamp) {
  const Geometry block_of_plastic = import_step(StepFile(block(10, 20, 30)).import());
  const FaceId foot = plane_facing(block_of_plastic, {0, 0, -1}),
               side = plane_facing(block_of_plastic, {-1, 0, 0});
  const auto edges = [&](const std::vector<FaceId>& faces, const std::vector<FaceId>& held,
                         HeldFace how) {
    return edges_without_limit(block_of_plastic, faces, held, how).size();
  };

  BOOST_TEST(edges({foot}, {foot}, HeldFace::sliding) == 0U);
  BOOST_TEST(edges({foot}, {foot}, HeldFace::fixed) == 4U);
  BOOST_TEST(edges({foot}, {foot, side}, HeldFace::fixed) == 3U);
}

BOOST_AUTO_TEST_CASE(a_ring_held_in_the_middle_of_a_flat_face_has_two_edges_without_limit) {
  const auto file = std::filesystem::path(CROSSGRAIN_SOURCE_DIR) / "cases" / "examples" /
                    "vacuum-lid" / "vacuum-lid.step";
  StepSource source;
  source.step_file = file;
  const Geometry lid = import_step(source);
  const FaceId ring = named(lid, "seal ring");

  const auto edges = edges_without_limit(lid, {ring}, {ring}, HeldFace::sliding);

  // The circles of 70 and 78 mm radius; the mirrored flat underside is a crack of no width.
  BOOST_REQUIRE(edges.size() == 2U);
  const double sum = *lid.edge(edges[0]).circle_radius + *lid.edge(edges[1]).circle_radius;
  BOOST_TEST(sum == 148.0, boost::test_tools::tolerance(1e-6));
}

BOOST_AUTO_TEST_CASE(stress_that_grows_as_at_a_square_corner_is_recognised) {
  // Williams: the exponent at a material angle of 270 degrees is 1 - 0.5445.
  const double ratio = std::pow(4.0, 0.4555);
  const auto edges = growing_edges({pass_with(4.0 * ratio, 2.0), pass_with(4.0, 0.5)});

  BOOST_REQUIRE(edges.size() == 1U);
  BOOST_TEST((edges[0].edge == EdgeId{7}));
  BOOST_TEST(edges[0].exponent == 0.4555, boost::test_tools::tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(stress_that_settles_or_does_not_count_is_not) {
  // A fillet: 5 % more on a mesh of half the size.
  BOOST_TEST(growing_edges({pass_with(4.2, 1.0), pass_with(4.0, 0.5)}).empty());
  // As fine as before: nothing is known.
  BOOST_TEST(growing_edges({pass_with(8.0, 0.6), pass_with(4.0, 0.5)}).empty());
  // Far above the governing factor of 4: no one asks.
  BOOST_TEST(growing_edges({pass_with(16.0, 2.0), pass_with(8.0, 0.5)}).empty());
  BOOST_TEST(growing_edges({pass_with(4.0, 0.5)}).empty());
  BOOST_TEST(growing_edges({}).empty());
}

BOOST_AUTO_TEST_CASE(the_nearest_clearly_coarser_mesh_is_the_one_compared_with) {
  const auto edges = growing_edges(
      {pass_with(9.0, 4.0), pass_with(6.0, 1.0), pass_with(4.2, 0.35), pass_with(4.0, 0.3)});

  BOOST_REQUIRE(edges.size() == 1U);
  BOOST_TEST(edges[0].before.mean_edge_mm == 1.0);
}

BOOST_AUTO_TEST_SUITE_END()
