// SPDX-License-Identifier: GPL-3.0-or-later
// Who takes the fluid's thrust where two bodies close a hollow between them.
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "cases/loads/pressure_loads.h"
#include "mesh/meshing.h"
#include "solver/loads/loads.h"
#include "tests/cases/case_text.h"
#include "tests/mesh/simple_parts.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;

constexpr double pressure = 0.4, radius = 8.0;  // MPa, mm
// The hollow's edge as a curve of second degree through points of the circle.
constexpr double curved = 1e-3;

/// A cup of 8 mm inner radius and a lid that lies on it, hollowed out as wide.
MeshedGeometry cup_and_lid() {
  const TopoDS_Shape cup = cut(block(30, 30, 20), {rod({15, 15, 5}, {0, 0, 1}, 16, 30)});
  const TopoDS_Shape lid = cut(block(30, 30, 8, 0, 0, 20), {rod({15, 15, 10}, {0, 0, 1}, 16, 14)});
  const StepFile file({{cup, "cup", {}, {}}, {lid, "lid", {}, {}}});
  ImportOptions import = file.import();
  import.apart = {{ BodyId{1}, BodyId { 2 } }};
  MeshOptions options;
  options.layers = 1;
  return mesh_step(import, options);
}

const std::string both = R"([[body]]
step_file = "part.step"
material = "petg"
print_direction = "+z"
[[pressure]]
name = "working"
value = "0.4 MPa"
faces = [
  { wetted_at = ["15 mm", "15 mm", "10 mm"], seal_lines = [ { name = "rim", faces = { plane = "+z", at = "20 mm" } } ] },
  { wetted_at = ["15 mm", "15 mm", "22 mm"], seal_lines = [ { name = "lid's rim", faces = { plane = "-z", at = "-20 mm" } } ] },
]
)";
const std::string contact = R"([[contact]]
name = "flange"
faces = { plane = "+z", at = "20 mm" }
mate = { plane = "-z", at = "-20 mm" }
)";

AssembledPressure assembled(const MeshedGeometry& meshed, const std::string& text) {
  const CaseFile case_file = case_from(text);
  return assemble_pressure(case_file.pressures[0], case_file, meshed.geometry,
                           find_features(meshed.geometry), meshed.mesh);
}

/// What pushes a body along z [N].
double push_on(const MeshedGeometry& meshed, const AssembledPressure& load, int body) {
  std::vector<bool> own(static_cast<std::size_t>(meshed.mesh.node_count()), false);
  for (Eigen::Index t = 0; t < meshed.mesh.tetrahedron_count(); ++t)
    if (number(meshed.mesh.body_of_tetrahedron[static_cast<std::size_t>(t)]) == body)
      for (const int node : meshed.mesh.tetrahedra.col(t))
        own[static_cast<std::size_t>(node)] = true;
  double push = 0.0;
  for (Eigen::Index node = 0; node < meshed.mesh.node_count(); ++node)
    if (own[static_cast<std::size_t>(node)]) push += load.load.nodal_forces[3 * node + 2];
  return push;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(closing_joints)

BOOST_AUTO_TEST_CASE(bodies_in_contact_are_pushed_apart_by_the_fluid_between_them) {
  const MeshedGeometry meshed = cup_and_lid();

  const AssembledPressure load = assembled(meshed, both + contact);

  const double thrust = pressure * M_PI * radius * radius;
  BOOST_REQUIRE(load.thrusts.size() == 2u);
  for (const FluidThrust& each : load.thrusts) BOOST_TEST(each.carried_by == "flange");
  BOOST_TEST(push_on(meshed, load, 1) == -thrust, tolerance(curved));
  BOOST_TEST(push_on(meshed, load, 2) == thrust, tolerance(curved));
}

BOOST_AUTO_TEST_CASE(a_plug_keeps_the_thrust_in_the_body_that_it_sits_in) {
  const MeshedGeometry meshed = cup_and_lid();

  const AssembledPressure load = assembled(meshed, both);

  for (const FluidThrust& each : load.thrusts) BOOST_TEST(each.carried_by == "plug");
  BOOST_TEST(std::abs(push_on(meshed, load, 1)) < 1e-6 * pressure * M_PI * radius * radius);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
