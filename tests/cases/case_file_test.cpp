// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_file.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "tests/cases/case_text.h"
#include "tests/support/near.h"

// Expected numbers follow from the text by hand, units by their definition.
using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;
using Eigen::Vector3d;

namespace {
// A few roundings of double arithmetic.
constexpr double exact = 1e-14;
}  // namespace

BOOST_AUTO_TEST_SUITE(case_file)

BOOST_AUTO_TEST_CASE(a_small_case_reads_and_the_rest_has_its_defaults) {
  const CaseFile small = case_from(small_case);

  BOOST_TEST(small.title == "case");
  BOOST_REQUIRE(small.bodies.size() == 1);
  BOOST_TEST(small.bodies[0].step_file.filename() == "part.step");
  BOOST_TEST(small.bodies[0].material == "petg");
  BOOST_TEST(small.bodies[0].scale == 1.0);
  BOOST_TEST(!small.bodies[0].bead_width);
  BOOST_TEST(near(small.bodies[0].print_direction, Vector3d(0, 0, 1), 0.0));
  BOOST_REQUIRE(small.pressures.size() == 1);
  BOOST_TEST(small.pressures[0].value == 0.4, tolerance(exact));
  BOOST_TEST(small.pressures[0].scales);
  BOOST_TEST(small.pressures[0].place.line == 5);
  BOOST_REQUIRE(small.pressures[0].faces.wetted.has_value());
  BOOST_TEST(near(*small.pressures[0].faces.wetted->point, Vector3d(0, 0, 20), exact));
}

BOOST_AUTO_TEST_CASE(defaults_of_the_key_table_are_those_of_the_structs) {
  const CaseFile small = case_from(small_case);
  const Conditions conditions;
  const Targets targets;
  const MeshOptions mesh;
  const DirectionsSpec directions;

  BOOST_TEST(small.conditions.service.temperature_K == conditions.service.temperature_K,
             tolerance(exact));
  BOOST_TEST(small.conditions.service.duration_s == conditions.service.duration_s,
             tolerance(exact));
  BOOST_TEST(small.conditions.service.cycles == conditions.service.cycles);
  BOOST_TEST((small.conditions.service.moisture == conditions.service.moisture));
  BOOST_TEST((small.conditions.medium == conditions.medium));
  BOOST_TEST(small.conditions.medium_name == conditions.medium_name);
  BOOST_TEST(small.conditions.fluid_bulk_modulus == conditions.fluid_bulk_modulus,
             tolerance(exact));
  BOOST_TEST(small.conditions.trapped_air_fraction == conditions.trapped_air_fraction,
             tolerance(exact));
  BOOST_TEST(small.targets.safety_factor == targets.safety_factor);
  BOOST_TEST(small.targets.proof_factor == targets.proof_factor);
  BOOST_TEST(small.targets.proof_duration_s == targets.proof_duration_s, tolerance(exact));
  BOOST_TEST((small.targets.criterion == targets.criterion));
  BOOST_TEST(small.mesh.layers == mesh.layers);
  BOOST_TEST(small.mesh.elements_per_turn == mesh.elements_per_turn);
  BOOST_TEST(small.mesh.refinement == mesh.refinement);
  BOOST_TEST(small.mesh.deterministic == mesh.deterministic);
  BOOST_TEST((small.mesh.time_limit == mesh.time_limit));
  BOOST_TEST((small.solve.method == SolverOptions{}.method));
  BOOST_TEST(small.solve.tolerance == SolverOptions{}.tolerance);
  BOOST_TEST(small.directions.overhang_angle == directions.overhang_angle, tolerance(exact));
  BOOST_TEST((small.hand_calculation.shape == HandShape::none));
}

BOOST_AUTO_TEST_CASE(every_kind_of_load_reads_into_internal_units) {
  const CaseFile loaded = case_from(one_body + R"(
[[pressure]]
name = "vacuum"
value = "-0.5 bar"
faces = { colour = "#ff0080" }
head = { density = "1000 kg/m3", free_surface = "0.2 m", up = "-x" }
carried_by = { inlet = "plug" }
[[force]]
name = "pull"
faces = { ids = [3, 4] }
force = ["0 N", "0 N", "-0.1 kN"]
moment = ["1 N m", "0 N m", "0 N m"]
[[acceleration]]
name = "weight"
acceleration = ["0 m/s^2", "0 m/s^2", "-9.81 m/s^2"]
scales = true
[[temperature_change]]
name = "hot"
change = "36 degF"
)");

  BOOST_TEST(loaded.pressures[0].value == -0.05, tolerance(exact));
  BOOST_TEST((*loaded.pressures[0].faces.colour)[2] == 128.0 / 255.0, tolerance(exact));
  BOOST_REQUIRE(loaded.pressures[0].head.has_value());
  BOOST_TEST(loaded.pressures[0].head->density == 1e-9, tolerance(exact));
  BOOST_TEST(loaded.pressures[0].head->free_surface == 200.0, tolerance(exact));
  BOOST_TEST(near(loaded.pressures[0].head->up, Vector3d(-1, 0, 0), 0.0));
  BOOST_TEST(loaded.pressures[0].carried_by.at("inlet") == "plug");
  BOOST_TEST(near(loaded.forces[0].force, Vector3d(0, 0, -100), exact));
  BOOST_TEST(near(loaded.forces[0].moment, Vector3d(1000, 0, 0), exact));
  BOOST_TEST(loaded.forces[0].faces.ids == (std::vector<int>{3, 4}));
  BOOST_TEST(loaded.forces[0].scales);
  BOOST_TEST(near(loaded.accelerations[0].acceleration, Vector3d(0, 0, -9810), exact));
  BOOST_TEST(loaded.accelerations[0].scales);
  BOOST_TEST(loaded.temperatures[0].change == 20.0, tolerance(exact));
  BOOST_TEST(!loaded.temperatures[0].scales);
}

BOOST_AUTO_TEST_CASE(faces_are_chosen_in_every_way) {
  const CaseFile chosen = case_from(small_case + R"(
[[support]]
name = "a"
faces = { hole = "5.5 mm", axis = "z", part = "seat", count = 8, body = "bowl" }
[[support]]
name = "b"
faces = { plane = "-z", at = "5 mm" }
hold = "normal"
[[support]]
name = "c"
faces = { wetted_through = { hole = "8 mm" }, ports = [
  { name = "inlet", faces = { plane = "+x", at = "60 mm" } },
  { faces = { plane = "-x", at = "60 mm" } },
], seal_lines = [{ faces = { name = "flange" } }] }
hold = "direction"
direction = [0, 3, 4]
[[support]]
name = "d"
faces = { outside = true, except = { ids = [7] } }
[[support]]
name = "e"
faces = [{ name = "foot" }, { ids = [1] }]
)");
  const auto faces = [&](int i) { return chosen.supports[i].faces; };

  BOOST_TEST(faces(0).hole->diameter == 5.5, tolerance(exact));
  BOOST_TEST(near(*faces(0).hole->axis, Vector3d(0, 0, 1), 0.0));
  BOOST_TEST((faces(0).hole->part == FaceChoice::HoleChoice::Part::seat));
  BOOST_TEST(*faces(0).count == 8);
  BOOST_TEST(*faces(0).body == "bowl");
  BOOST_TEST(near(faces(1).plane->normal, Vector3d(0, 0, -1), 0.0));
  BOOST_TEST(faces(1).plane->at == 5.0, tolerance(exact));
  BOOST_TEST((chosen.supports[1].hold == Hold::normal));
  BOOST_REQUIRE(faces(2).wetted.has_value());
  BOOST_TEST(faces(2).wetted->through->hole->diameter == 8.0, tolerance(exact));
  BOOST_TEST(faces(2).wetted->stop_names ==
             (std::vector<std::string>{"inlet", "port 2", "seal line 1"}));
  BOOST_TEST(near(faces(2).wetted->stops[1].plane->normal, Vector3d(-1, 0, 0), 0.0));
  BOOST_TEST(near(chosen.supports[2].direction, Vector3d(0, 0.6, 0.8), exact));
  BOOST_TEST(faces(3).everything_outside);
  BOOST_TEST(faces(3).except->ids == std::vector<int>{7});
  BOOST_TEST(faces(4).any_of.size() == 2u);
  BOOST_TEST(*faces(4).any_of[0].name == "foot");
}

BOOST_AUTO_TEST_CASE(faces_may_be_written_as_tables_of_their_own) {
  const CaseFile spread = case_from(one_body + R"(
[[pressure]]
name = "working"
value = "4 bar"
[pressure.faces]
wetted_at = ["0 mm", "0 mm", "20 mm"]
[[pressure.faces.ports]]
name = "inlet"
faces = { plane = "+x", at = "60 mm" }
)");

  BOOST_TEST(spread.pressures[0].faces.wetted->stop_names[0] == "inlet");
}

BOOST_AUTO_TEST_CASE(settings_and_studies_read) {
  const CaseFile set = case_from("title = \"A bowl\"\n" + small_case + R"(
[conditions]
temperature = "60 degC"
moisture = "conditioned"
duration = "1 h"
cycles = 1e5
medium = "air"
trapped_air = 0.5
[[load_case]]
name = "twice"
factors = { working = 2 }
[[probe]]
name = "rim"
line = [["0 mm", "0 mm", "0 mm"], ["1 cm", "0 mm", "0 mm"]]
samples = 5
[targets]
safety_factor = 4
criterion = "maximum_stress"
[mesh]
layers = 3
size = "4 mm"
time_limit = "90 s"
write_msh = "out.msh"
[solve]
method = "direct"
tolerance = 1e-11
[hand_calculation]
shape = "thick_cylinder"
inner_radius = "20 mm"
wall = "3 mm"
[directions]
named = { upright = "+z", tilted = [0, 1, 1] }
overhang_angle = "40 deg"
)");

  BOOST_TEST(set.title == "A bowl");
  BOOST_TEST((set.solve.method == SolverMethod::direct));
  BOOST_TEST(set.solve.tolerance == 1e-11);
  BOOST_TEST(set.conditions.service.temperature_K == 333.15, tolerance(exact));
  BOOST_TEST((set.conditions.service.moisture == Moisture::conditioned));
  BOOST_TEST(set.conditions.service.duration_s == 3600.0, tolerance(exact));
  BOOST_TEST(set.conditions.service.cycles == 1e5);
  BOOST_TEST((set.conditions.medium == Medium::gas));
  BOOST_TEST(set.conditions.medium_name == "air");
  BOOST_TEST(set.conditions.trapped_air_fraction == 0.5);
  BOOST_TEST(set.load_cases[0].factors.at("working") == 2.0);
  BOOST_TEST(near(set.probes[0].line->second, Vector3d(10, 0, 0), exact));
  BOOST_TEST(set.probes[0].samples == 5);
  BOOST_TEST(set.targets.safety_factor == 4.0);
  BOOST_TEST((set.targets.criterion == Criterion::maximum_stress));
  BOOST_TEST(set.mesh.layers == 3);
  BOOST_TEST(*set.mesh.size == 4.0, tolerance(exact));
  BOOST_TEST(set.mesh.time_limit.count() == 90);
  BOOST_TEST((set.mesh.write_msh->parent_path() == set.file.parent_path()));
  BOOST_TEST((set.hand_calculation.shape == HandShape::thick_cylinder));
  BOOST_TEST(set.hand_calculation.inner_radius == 20.0, tolerance(exact));
  BOOST_TEST(set.hand_calculation.closed_ends);
  BOOST_REQUIRE(set.directions.named.size() == 2u);
  BOOST_TEST(set.directions.named[0].name == "upright");
  BOOST_TEST(
      near(set.directions.named[1].direction, Vector3d(0, std::sqrt(0.5), std::sqrt(0.5)), exact));
}

BOOST_AUTO_TEST_CASE(bolts_gaskets_and_who_carries_the_thrust_refer_to_each_other) {
  const CaseFile joint = case_from(small_case + R"(carried_by = { }
[[bolt]]
name = "screws"
thread = { hole = "6.4 mm", count = 8 }
size = "M5"
preload = "1.2 kN"
scatter = 1.5
[[bolt]]
name = "more"
thread = { hole = "6.4 mm" }
size = "M5"
torque = "2 N m"
friction = 0.2
[[gasket]]
name = "seal"
faces = { plane = "+z", at = "0 mm" }
bolts = "screws"
pressure = "working"
)");

  // VDI 2230: least and greatest lie evenly about the nominal, 1.2 kN +- 20 % for a ratio of 1.5.
  BOOST_TEST(joint.bolts[0].preload_min == 960.0, tolerance(exact));
  BOOST_TEST(joint.bolts[0].preload_nominal == 1200.0, tolerance(exact));
  BOOST_TEST(joint.bolts[0].preload_max == 1440.0, tolerance(exact));
  BOOST_TEST(joint.bolts[0].head_diameter == 8.03);
  // By hand: 2000 / (0.159*0.8 + 0.577*4.4804*0.2 + (8.03 + 5.5)/4*0.2) = 2000 / 1.32074 N.
  BOOST_TEST(joint.bolts[1].preload_nominal == 1514.3, tolerance(1e-4));
  BOOST_TEST(joint.bolts[1].preload_max / joint.bolts[1].preload_min == 2.0, tolerance(exact));
  BOOST_TEST(joint.bolts[1].preload_source ==
             "from torque 2 N m, friction 0.2 in the thread and 0.2 under the head (VDI 2230); "
             "scatter (greatest / least) 2, usual for a torque wrench");
  BOOST_TEST(joint.gaskets[0].bolts == "screws");
}

BOOST_AUTO_TEST_CASE(the_example_cases_read) {
  const std::filesystem::path cases =
      std::filesystem::path(CROSSGRAIN_SOURCE_DIR) / "cases" / "examples";
  for (const std::string name : {"filter-bowl", "pipe-tee", "manifold-block", "vacuum-lid"}) {
    BOOST_TEST_CONTEXT(name) {
      const CaseFile example = read_case(cases / name / (name + ".toml"));

      BOOST_TEST(example.pressures.size() == 1u);
      BOOST_TEST(example.pressures[0].faces.wetted.has_value());
    }
  }
}

BOOST_AUTO_TEST_CASE(a_hand_calculation_may_be_left_to_the_part) {
  const CaseFile left = case_from(small_case + "[hand_calculation]\nmode = \"auto\"\n");

  BOOST_TEST(left.hand_calculation.automatic);
  BOOST_TEST((left.hand_calculation.shape == HandShape::none));
}

BOOST_AUTO_TEST_SUITE_END()
