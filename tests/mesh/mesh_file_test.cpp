// SPDX-License-Identifier: GPL-3.0-or-later
// A mesh that was written as .msh comes back as it was, and no other.
#include <boost/test/unit_test.hpp>
#include <cstring>
#include <fstream>
#include <sstream>

#include "tests/mesh/simple_parts.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

std::string read_all(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::stringstream text;
  text << stream.rdbuf();
  return text.str();
}

struct Written {
  TemporaryDirectory folder;
  std::filesystem::path file = folder.path() / "part.msh";
  StepFile part{tube(20, 15, 30)};
  MeshedGeometry meshed;
  Written() {
    MeshOptions options;
    options.size = 8.0;
    options.write_msh = file;
    meshed = mesh_step(part.import(), options);
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
