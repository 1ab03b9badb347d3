// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/finer_mesh.h"

#include <boost/test/unit_test.hpp>

#include "mesh/meshing.h"
#include "solver/error/wanted_sizes.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
namespace tt = boost::test_tools;

namespace {

/// A run that found its weakest place, at a corner of a block, on a mesh of 0.5 mm cells.
struct Judged {
  TetrahedronMesh mesh = box_mesh({2, 2, 2}, {1.0, 1.0, 1.0});
  StressSites sites;
  BodyMaterials materials;
  Targets targets;
  MeshOptions options;
  Refining refining;
  RunResult result;
  Eigen::VectorXd shares = Eigen::VectorXd::Constant(mesh.tetrahedron_count(), 1e-3);

  Judged() {
    sites.points = stress_points(mesh);
    sites.positions = mesh.nodes;
    sites.body_names = {"block"};
    sites.bead_width_of_body = {0.4};
    sites.near_artificial.assign(sites.points.size(), 0);
    sites.under_head.assign(sites.points.size(), 0);
    ModeResult mode{};
    mode.mode = FailureMode::interlayer;
    mode.factor = {2.0, 1.5, 2.5};
    mode.position = {0, 0, 0};
    mode.body = "block";
    CaseResult judged{};
    judged.kind = CaseKind::working;
    judged.all_loads.factor = mode.factor;
    judged.all_loads.governing = mode;
    judged.all_loads.modes = {mode};
    judged.scaling_loads.applies = false;
    result.cases = {judged};
    result.governing = mode;
    result.governing_place = GoverningPlace{0.4, 0.6, false, EdgeId{1}, {}, {}};
    result.mesh_error = MeshError{0.1, 0.2};
    result.mesh_passes.resize(1);
  }
  NextMesh next(double seconds = 1.0) const {
    return next_mesh({result, {mesh, sites, materials, targets}, shares, options}, refining,
                     seconds);
  }
};

MeshPass pass(double factor, double error, bool resolved, double x = 0.0) {
  ModeResult governing{};
  governing.mode = FailureMode::interlayer;
  governing.factor = {factor, factor, factor};
  governing.position = {x, 0, 0};
  return {1000, governing, MeshError{0.1, error},
          GoverningPlace{0.4, 0.2, resolved, EdgeId{1}, {}, {}}, 1.0};
}

}  // namespace

BOOST_AUTO_TEST_SUITE(finer_meshes)

BOOST_AUTO_TEST_CASE(an_inner_edge_that_governs_is_given_a_ball_of_short_edges) {
  const NextMesh next = Judged().next();

  BOOST_REQUIRE(next.options.has_value());
  BOOST_REQUIRE(next.options->balls.size() == 1);
  BOOST_TEST(next.options->balls[0].centre.norm() == 0.0);
  BOOST_TEST(next.options->balls[0].radius == 0.8, tt::tolerance(1e-12));
  BOOST_TEST(next.options->balls[0].size <= 0.4);
  BOOST_TEST(next.options->wanted_sizes.empty());
}

BOOST_AUTO_TEST_CASE(nothing_is_done_where_nothing_is_asked) {
  Judged judged;
  judged.refining.worst_place = false;
  BOOST_TEST(!judged.next().options.has_value());
  BOOST_TEST(judged.next().reason == "");

  Judged smooth;
  smooth.result.governing_place->inner_edge.reset();
  BOOST_TEST(!smooth.next().options.has_value());

  Judged resolved;
  resolved.result.governing_place->resolved = true;
  BOOST_TEST(!resolved.next().options.has_value());
}

BOOST_AUTO_TEST_CASE(a_zone_hidden_beside_a_support_is_given_a_ball) {
  Judged judged;
  judged.result.governing_place->inner_edge.reset();
  ModeResult at_support = *judged.result.governing;
  at_support.factor = {1.5, 1.5, 1.5};
  at_support.position = {1, 1, 1};
  judged.result.cases[0].all_loads.near_artificial = {at_support};
  judged.result.hidden_zone = HiddenZone{at_support, 0.6, 0.4};

  const NextMesh next = judged.next();

  BOOST_REQUIRE(next.options.has_value());
  BOOST_REQUIRE(next.options->balls.size() == 2);
  BOOST_TEST(next.options->balls[0].centre == Eigen::Vector3d(1, 1, 1));

  // The mesh is as fine as asked for there, and yet too coarse: nothing more can be done.
  judged.options.balls = next.options->balls;
  BOOST_TEST(!judged.next().options.has_value());
  BOOST_TEST(judged.next().reason.find("as short as they get") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(regions_that_have_become_idle_get_longer_edges_again) {
  const StepFile part(block(60, 10, 10));
  const auto elements_within = [](const TetrahedronMesh& mesh, double from, double to) {
    int count = 0;
    for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
      const double x = mesh.nodes(0, mesh.tetrahedra(0, t));
      count += x >= from && x <= to;
    }
    return count;
  };
  MeshOptions options;
  // What a pass asked for while the error came from the left end.
  for (double x = 0.0; x <= 15.0; x += 1.0)
    for (double y = 0.0; y <= 10.0; y += 1.0)
      for (double z = 0.0; z <= 10.0; z += 1.0)
        options.wanted_sizes.push_back({Eigen::Vector3d(x, y, z), 1.2});
  const TetrahedronMesh before = mesh_step(part.import(), options).mesh;
  // On that mesh it comes from the right end.
  Eigen::VectorXd shares(before.tetrahedron_count());
  for (Eigen::Index t = 0; t < shares.size(); ++t)
    shares[t] = before.nodes(0, before.tetrahedra(0, t)) > 45.0 ? 1.0 : 1e-9;

  options.wanted_sizes = wanted_sizes(before, shares, {0.1 * shares.sum(), 1e9});
  const TetrahedronMesh after = mesh_step(part.import(), options).mesh;

  BOOST_TEST_MESSAGE("left: " << elements_within(before, 0, 15) << " then "
                              << elements_within(after, 0, 15)
                              << ", right: " << elements_within(before, 45, 60) << " then "
                              << elements_within(after, 45, 60));
  // Edges twice as long are an eighth of the elements; growing sizes and layers keep some more.
  BOOST_TEST(elements_within(after, 0, 15) < elements_within(before, 0, 15) / 3);
  BOOST_TEST(elements_within(after, 45, 60) > elements_within(before, 45, 60));
}

BOOST_AUTO_TEST_CASE(an_error_larger_than_asked_for_asks_for_sizes) {
  Judged judged;
  judged.result.governing_place->resolved = true;
  judged.refining.error = 0.05;  // 0.1 of 2 is there

  const NextMesh next = judged.next();
  BOOST_REQUIRE(next.options.has_value());
  BOOST_TEST(!next.options->wanted_sizes.empty());
  BOOST_TEST(next.options->balls.empty());

  judged.refining.error = 0.1;
  BOOST_TEST(!judged.next().options.has_value());
}

BOOST_AUTO_TEST_CASE(every_limit_ends_it_with_a_reason) {
  Judged passes;
  passes.refining.passes_max = 1;
  BOOST_TEST(!passes.next().options.has_value());
  BOOST_TEST(passes.next().reason.find("passes_max of 1") != std::string::npos);

  Judged late;
  BOOST_TEST(!late.next(601.0).options.has_value());
  BOOST_TEST(late.next(601.0).reason.find("time") != std::string::npos);

  Judged read;
  read.options.mesh_file = "part.msh";
  BOOST_TEST(!read.next().options.has_value());
  BOOST_TEST(read.next().reason.find("file") != std::string::npos);

  Judged full;
  full.result.governing_place->resolved = true;
  full.refining.error = 0.01;
  full.options.unknowns_max = static_cast<int>(full.mesh.unknowns());
  BOOST_TEST(!full.next().options.has_value());
  BOOST_TEST(full.next().reason.find("unknowns_max") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_factor_is_followed_to_where_the_error_ends) {
  // Errors of 0.4 and 0.2 that are just what the factor is off by, from 2.
  BOOST_TEST(*extrapolated({pass(2.4, 0.4, true), pass(2.2, 0.2, true)}) == 2.0,
             tt::tolerance(1e-12));
  BOOST_TEST(!extrapolated({pass(2.2, 0.2, true)}).has_value());
  BOOST_TEST(extrapolated({pass(2.4, 0.4, true), pass(2.2, 0.2, true, 0.19)}).has_value());
  BOOST_TEST(!extrapolated({pass(2.4, 0.4, true), pass(2.2, 0.2, true, 0.21)}).has_value());
  BOOST_TEST(!extrapolated({pass(2.4, 0.4, false), pass(2.2, 0.2, true)}).has_value());
  BOOST_TEST(!extrapolated({pass(2.4, 0.25, true), pass(2.2, 0.2, true)}).has_value());
}

BOOST_AUTO_TEST_SUITE_END()
