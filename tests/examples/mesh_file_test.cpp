// SPDX-License-Identifier: GPL-3.0-or-later
// A run that reads its mesh from a file answers as the run that wrote the file.
#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "tests/examples/example_case.h"

using namespace crossgrain::testing;

namespace {

nlohmann::json summary_with(const ExampleCopy& lid, const std::string& plain,
                            const std::string& mesh_key, const std::string& results) {
  // One mesh each: a finer one could only be made by the run that writes.
  lid.write_case(plain + mesh_key + "\nrefine_worst_place = false\n");
  const Ended ended = lid.run({"run", lid.case_name(), "-o", results});
  BOOST_REQUIRE_MESSAGE(ended.status == 0 || ended.status == 1, ended.err);
  return nlohmann::json::parse(content_of(lid.directory() / results / "summary.json"));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(mesh_file)

BOOST_AUTO_TEST_CASE(a_mesh_read_back_gives_the_same_answer_to_the_last_digit) {
  const ExampleCopy lid("vacuum-lid");
  const std::string plain = lid.case_text();

  const auto written = summary_with(lid, plain, "write_msh = \"lid.msh\"", "written");
  const auto read = summary_with(lid, plain, "file = \"lid.msh\"", "read");

  BOOST_TEST(written["strain_energy_mJ"].get<double>() > 0.0);
  for (const char* key : {"strain_energy_mJ", "displacement_max_mm", "safety_factor", "governing"})
    BOOST_TEST(read[key].dump() == written[key].dump());
  for (const char* key : {"unknowns", "tetrahedra", "layers_min", "volume_mm3"})
    BOOST_TEST(read["mesh"][key].dump() == written["mesh"][key].dump());
  // Where the time of meshing went is told, stage by stage.
  BOOST_TEST(written["seconds"].contains("import and mesh: meshing the volumes (Gmsh)"));
  BOOST_TEST(read["seconds"].contains("import and mesh: reading the mesh"));
}

BOOST_AUTO_TEST_SUITE_END()
