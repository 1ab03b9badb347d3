// SPDX-License-Identifier: GPL-3.0-or-later
// A mesh that was written as .msh comes back as it was, and no other.
#include <Eigen/Geometry>
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <cstring>
#include <fstream>
#include <set>
#include <sstream>

#include "mesh/tetrahedra/mesh_checks.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using Eigen::Vector3d;

namespace {

std::string read_all(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::stringstream text;
  text << stream.rdbuf();
  return text.str();
}

std::set<int> nodes_of_surface(const TetrahedronMesh& mesh) {
  return {mesh.triangles.reshaped().begin(), mesh.triangles.reshaped().end()};
}

/// Of all corners inside the body, the one that lies nearest to the plane of a side opposite to it,
/// so that moving it there turns no other element inside out; and the way [mm].
std::pair<int, Vector3d> shortest_way_to_an_opposite_side(const TetrahedronMesh& mesh) {
  const std::set<int> surface = nodes_of_surface(mesh);
  int node = -1;
  Vector3d way = Vector3d::Constant(1e9);
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e)
    for (int i = 0; i < 4; ++i) {
      if (surface.contains(mesh.tetrahedra(i, e))) continue;
      const auto corner = [&](int k) -> Vector3d {
        return mesh.nodes.col(mesh.tetrahedra((i + k) % 4, e));
      };
      const Vector3d normal = (corner(2) - corner(1)).cross(corner(3) - corner(1)).normalized();
      const Vector3d there = normal.dot(corner(1) - corner(0)) * normal;
      if (there.norm() >= way.norm()) continue;
      node = mesh.tetrahedra(i, e);
      way = there;
    }
  return {node, way};
}

struct Written {
  TemporaryDirectory folder;
  std::filesystem::path file = folder.path() / "part.msh";
  StepFile part;
  MeshedGeometry meshed;
  explicit Written(const TopoDS_Shape& shape = tube(20, 15, 30)) : part(shape) {
    MeshOptions options;
    options.size = 8.0;
    options.write_msh = file;
    meshed = mesh_step(part.import(), options);
  }
  /// Move a node, and no other, in the file.
  void move_in_file(int node, const Vector3d& by) const {
    std::string text = read_all(file);
    std::string bytes(3 * sizeof(double), '\0');
    std::memcpy(bytes.data(), meshed.mesh.nodes.col(node).data(), bytes.size());
    const auto at = text.find(bytes);
    BOOST_REQUIRE(at != std::string::npos);
    const Vector3d moved = meshed.mesh.nodes.col(node) + by;
    std::memcpy(text.data() + at, moved.data(), bytes.size());
    std::ofstream(file, std::ios::binary) << text;
  }
  MeshedGeometry read_for(const StepFile& other) const {
    MeshOptions options;
    options.mesh_file = file;
    return mesh_step(other.import(), options);
  }
};

}  // namespace

BOOST_FIXTURE_TEST_SUITE(mesh_files, Written)

BOOST_AUTO_TEST_CASE(a_mesh_comes_back_to_the_last_digit) {
  const MeshedGeometry back = read_for(part);

  BOOST_TEST((back.mesh.nodes == meshed.mesh.nodes));
  BOOST_TEST((back.mesh.tetrahedra == meshed.mesh.tetrahedra));
  BOOST_TEST((back.mesh.triangles == meshed.mesh.triangles));
  BOOST_TEST((back.mesh.face_of_triangle == meshed.mesh.face_of_triangle));
  BOOST_TEST((back.mesh.body_of_tetrahedron == meshed.mesh.body_of_tetrahedron));
  BOOST_TEST(back.report.layers_min == meshed.report.layers_min);
  BOOST_TEST(back.report.volume_mm3 == meshed.report.volume_mm3);
  BOOST_TEST(back.report.cad_volume_mm3 == meshed.report.cad_volume_mm3);
}

BOOST_AUTO_TEST_CASE(any_reader_of_the_format_finds_the_nodes) {
  // MSH 4.1, as Gmsh's reference manual describes it: a version, and 8-byte numbers in binary.
  const std::string text = read_all(file);

  BOOST_TEST(text.substr(0, 20) == "$MeshFormat\n4.1 1 8\n");
  BOOST_TEST(text.find("$EndElements") != std::string::npos);
  const Eigen::Vector3d last = meshed.mesh.nodes.col(meshed.mesh.node_count() - 1);
  std::string bytes(sizeof(double), '\0');
  std::memcpy(bytes.data(), &last.x(), sizeof(double));
  BOOST_TEST(text.find(bytes) != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_mesh_of_another_part_is_refused_by_what_differs) {
  BOOST_TEST(refused([&] { read_for(StepFile(tube(20, 14, 30))); }, "is not a mesh of this part"));
  BOOST_TEST(refused([&] { read_for(StepFile(tube(20, 14, 30))); }, "part.msh"));
  BOOST_TEST(refused([&] { read_for(StepFile(block(30, 20, 10))); }, "is not a mesh of this part"));
}

BOOST_AUTO_TEST_CASE(a_mesh_with_a_dent_in_its_surface_is_refused) {
  // So shallow that volume and areas would let it pass.
  const std::set<int> surface = nodes_of_surface(meshed.mesh);
  const int node = *std::ranges::find_if(surface, [&](int i) {
    return std::abs(meshed.mesh.nodes.col(i).head<2>().norm() - 15.0) < 1e-6 &&
           std::abs(meshed.mesh.nodes(2, i) - 15.0) < 10.0;
  });
  const Vector3d on_axis(0, 0, meshed.mesh.nodes(2, node));

  move_in_file(node, 0.3 / 15.0 * (meshed.mesh.nodes.col(node) - on_axis));

  BOOST_TEST(refused([&] { read_for(part); }, "is not a mesh of this part: a node at"));
  BOOST_TEST(refused([&] { read_for(part); }, "lies 0.3 mm off face"));
}

BOOST_AUTO_TEST_CASE(a_flat_element_inside_is_measured_and_told_where) {
  const Written thick(block(30, 30, 30));
  const auto [node, way] = shortest_way_to_an_opposite_side(thick.meshed.mesh);
  BOOST_REQUIRE(node >= 0);
  BOOST_REQUIRE(thick.meshed.report.min_scaled_jacobian >= least_trusted_jacobian);

  thick.move_in_file(node, 0.9995 * way);

  const MeshReport report = thick.read_for(thick.part).report;
  BOOST_TEST(report.min_scaled_jacobian > 0.0);
  BOOST_TEST(report.min_scaled_jacobian < least_trusted_jacobian);
  BOOST_TEST((report.flattest_at - thick.meshed.mesh.nodes.col(node)).norm() < 8.0);
}

BOOST_AUTO_TEST_CASE(what_is_cut_short_or_missing_is_refused) {
  std::filesystem::resize_file(file, std::filesystem::file_size(file) / 2);
  BOOST_TEST(refused([&] { read_for(part); }, "part.msh: "));

  std::filesystem::remove(file);
  BOOST_TEST(refused([&] { read_for(part); }, "part.msh: there is no such file"));
}

BOOST_AUTO_TEST_CASE(a_mesh_that_cannot_be_written_is_an_error_and_leaves_nothing) {
  MeshOptions options;
  options.size = 8.0;
  options.write_msh = folder.path() / "missing" / "part.msh";

  BOOST_TEST(refused([&] { mesh_step(part.import(), options); }, "cannot be written"));
  BOOST_TEST(!std::filesystem::exists(folder.path() / "missing"));
}

BOOST_AUTO_TEST_SUITE_END()
