// SPDX-License-Identifier: GPL-3.0-or-later
// Bodies that meet without being one.
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <set>

#include "mesh/meshing.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;
using Eigen::Vector3d;

ImportOptions apart(const StepFile& file, const std::vector<KeptApart>& pairs) {
  ImportOptions options = file.import();
  options.apart = pairs;
  return options;
}

std::set<int> nodes_of(const TetrahedronMesh& mesh, int body) {
  std::set<int> nodes;
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    if (number(mesh.body_of_tetrahedron[static_cast<std::size_t>(t)]) != body) continue;
    for (const int node : mesh.tetrahedra.col(t)) nodes.insert(node);
  }
  return nodes;
}

std::size_t shared_nodes(const TetrahedronMesh& mesh, int one, int other) {
  const std::set<int> first = nodes_of(mesh, one), second = nodes_of(mesh, other);
  return static_cast<std::size_t>(
      std::count_if(first.begin(), first.end(), [&](int node) { return second.count(node) > 0; }));
}

std::size_t triangles_with_twins(const TetrahedronMesh& mesh) {
  return static_cast<std::size_t>(std::count_if(mesh.twin_of_triangle.begin(),
                                                mesh.twin_of_triangle.end(),
                                                [](int twin) { return twin >= 0; }));
}

double volume_of(const TetrahedronMesh& mesh) {
  double volume = 0.0;
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    const auto corner = [&](int i) -> Vector3d { return mesh.nodes.col(mesh.tetrahedra(i, t)); };
    const Vector3d a = corner(1) - corner(0), b = corner(2) - corner(0), c = corner(3) - corner(0);
    volume += a.cross(b).dot(c) / 6.0;
  }
  return volume;
}

MeshOptions coarse() {
  MeshOptions options;
  options.layers = 1;
  return options;
}

constexpr KeptApart first_pair{BodyId{1}, BodyId{2}};

/// A block on a block, and a third beside the first.
StepFile stack() {
  return StepFile({{block(20, 20, 10), "base", {}, {}},
                   {block(20, 20, 10, 0, 0, 10), "lid", {}, {}},
                   {block(10, 20, 5, 20, 0, 0), "arm", {}, {}}});
}

/// A ring in a ring, `interference` of their radii too large for it.
StepFile press_fit(double interference) {
  return StepFile(
      {{tube(10 + interference, 6, 8), "inner", {}, {}}, {tube(15, 10, 8), "outer", {}, {}}});
}

}  // namespace

BOOST_AUTO_TEST_SUITE(apart_bodies)

BOOST_AUTO_TEST_CASE(bodies_kept_apart_share_no_nodes_and_others_do) {
  const StepFile file = stack();

  const TetrahedronMesh mesh = mesh_step(apart(file, {first_pair}), coarse()).mesh;

  BOOST_TEST(shared_nodes(mesh, 1, 2) == 0u);
  BOOST_TEST(shared_nodes(mesh, 1, 3) > 0u);
  BOOST_TEST(triangles_with_twins(mesh) > 0u);
  BOOST_TEST(volume_of(mesh) == 9000.0, tolerance(1e-9));  // flat faces: exact but for rounding
}

BOOST_AUTO_TEST_CASE(bodies_that_nobody_keeps_apart_are_glued) {
  const StepFile file = stack();

  const TetrahedronMesh mesh = mesh_step(file.import(), coarse()).mesh;

  BOOST_TEST(shared_nodes(mesh, 1, 2) > 0u);
}

BOOST_AUTO_TEST_CASE(every_face_of_bodies_kept_apart_has_its_own_triangles) {
  const StepFile file = stack();

  const MeshedGeometry meshed =
      mesh_step(apart(file, {first_pair, {BodyId{1}, BodyId{3}}}), coarse());

  const TetrahedronMesh& mesh = meshed.mesh;
  const std::set<FaceId> faces(mesh.face_of_triangle.begin(), mesh.face_of_triangle.end());
  BOOST_TEST(faces.size() == meshed.geometry.faces.size());
  BOOST_TEST(triangles_with_twins(mesh) == 0u);
}

BOOST_AUTO_TEST_CASE(bodies_kept_apart_must_not_be_glued_by_way_of_others) {
  // The post stands on the base and on the lid's level: it touches both.
  const StepFile file({{block(20, 20, 10), "base", {}, {}},
                       {block(20, 20, 10, 0, 0, 10), "lid", {}, {}},
                       {block(5, 20, 20, 20, 0, 0), "post", {}, {}}});

  BOOST_TEST(refused([&] { mesh_step(apart(file, {first_pair}), coarse()); },
                     "bodies 1 \"base\" and 2 \"lid\" are to be kept apart, but others that touch "
                     "both are glued to them"));
}

BOOST_AUTO_TEST_CASE(bodies_kept_apart_must_not_overlap) {
  const StepFile file(
      {{block(20, 20, 10), "base", {}, {}}, {block(20, 20, 10, 0, 0, 9.5), "lid", {}, {}}});

  BOOST_TEST(refused([&] { import_step(apart(file, {first_pair})); },
                     "bodies 1 \"base\" and 2 \"lid\" overlap by 200 mm^3 near (10, 10, 9.75), 0.5 "
                     "mm deep, where 0 mm are allowed: place them so that they only touch"));
}

BOOST_AUTO_TEST_CASE(a_press_fit_may_lie_as_deep_as_it_is_said_to) {
  const StepFile file = press_fit(0.05);
  const auto with = [&](double interference) {
    return apart(file, {{BodyId{1}, BodyId{2}, interference}});
  };

  BOOST_TEST(import_step(with(0.05)).warnings.empty());
  BOOST_TEST(refused([&] { import_step(with(0.04)); }, "0.05 mm deep, where 0.04 mm are allowed"));
}

BOOST_AUTO_TEST_CASE(pairs_that_there_are_not_are_refused) {
  const StepFile file = stack();
  StepSource without_lid = file.import();
  without_lid.bodies = {"base", "arm"};
  ImportOptions left_out = without_lid;
  left_out.apart = {first_pair};
  const auto import_with = [&](const KeptApart& pair) { import_step(apart(file, {pair})); };

  BOOST_TEST(refused([&] { import_with({BodyId{1}, BodyId{4}}); }, "bodies are numbered 1 to 3"));
  BOOST_TEST(refused([&] { import_with({BodyId{0}, BodyId{1}}); }, "body 0 is to be kept apart"));
  BOOST_TEST(refused([&] { import_with({BodyId{2}, BodyId{2}}); }, "apart from itself"));
  BOOST_TEST(refused([&] { import_with({BodyId{1}, BodyId{2}, -0.1}); }, "must be zero or"));
  BOOST_TEST(refused(
      [&] {
        import_with({BodyId{1}, BodyId{2}, std::nan("")});
      },
      "interference of nan mm"));
  BOOST_TEST(refused([&] { import_step(left_out); }, "but the case leaves it out"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
