// SPDX-License-Identifier: GPL-3.0-or-later
// Who takes the fluid's thrust where two bodies close a hollow between them, and how it grows when
// the fluid comes between them.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "cases/loads/joint_states.h"
#include "cases/loads/pressure_loads.h"
#include "mesh/meshing.h"
#include "solver/loads/loads.h"
#include "tests/cases/case_text.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/refusal.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;

constexpr double pressure = 0.4, radius = 8.0;  // MPa, mm
// The hollow's edge as a curve of second degree through points of the circle.
constexpr double curved = 1e-3;
// The hollow's edge where faces meet as chords of a 24th of the circle, 2.3 of 900 mm^2.
constexpr double chords = 3e-3;

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

MaterialField plastic(const MeshedGeometry& meshed) {
  const SolidMaterial material{isotropic(2000.0, 0.35), Eigen::Vector3d::Zero(), 1e-9,
                               LayeredStrength{1.0, 1.0, 1.0, 1.0, 1.0}};
  return uniform_field(meshed.mesh, {material, material}, {Frame::Identity(), Frame::Identity()});
}

JoinedBodies joined_by(const MeshedGeometry& meshed, const std::string& text,
                       const MaterialField& field) {
  const CaseFile case_file = case_from(text);
  const Features features = find_features(meshed.geometry);
  return join_bodies(
      case_file, meshed.geometry, features, meshed.mesh, field,
      {assemble_pressure(case_file.pressures[0], case_file, meshed.geometry, features, meshed.mesh)
           .load});
}

FaceId flat_face(const Geometry& geometry, double z) {
  return std::ranges::find_if(geometry.faces,
                              [&](const CadFace& face) {
                                return face.kind == SurfaceKind::plane &&
                                       std::abs(face.centroid.z() - z) < 1e-6;
                              })
      ->id;
}

/// Cup and lid in contact, clamped by one screw that acts on all of their far faces, under
/// pressure.
JointSolution clamped(double preload) {
  const MeshedGeometry meshed = cup_and_lid();
  const TetrahedronMesh& mesh = meshed.mesh;
  const MaterialField field = plastic(meshed);
  JoinedBodies joined = joined_by(meshed, both + contact, field);
  joined.joint.screws = {{"screw",
                          area_motion(mesh, {flat_face(meshed.geometry, 28.0)}, {}, "head"),
                          area_motion(mesh, {flat_face(meshed.geometry, 0.0)}, {}, "thread"),
                          Eigen::Vector3d::UnitZ(), 1e4, 1e3}};
  JoinedScrews group{};
  group.count = 1;
  group.preload = {preload, preload, preload};
  group.kept = 1.0;
  joined.screws = {group};
  joined.states = {{"tightened", "tightened", PreloadLevel::nominal, {0.0}},
                   {"working", "working", PreloadLevel::nominal, {1.0}, 0}};
  StaticSolver solver(mesh, {});
  solver.set_material(field);
  return solve_states(solver, mesh, joined, {true, true})[1];
}

}  // namespace

BOOST_AUTO_TEST_SUITE(closing_joints)

BOOST_AUTO_TEST_CASE(a_fluid_follows_into_faces_that_only_press_and_that_it_borders) {
  const MeshedGeometry meshed = cup_and_lid();
  const MaterialField field = plastic(meshed);
  const auto fluids = [&](const std::string& text) {
    return joined_by(meshed, text, field).fluids.size();
  };
  const std::string tied = contact + "kind = \"tied\"\n";
  std::string outside = both;
  outside.replace(outside.find("faces = ["), outside.rfind("]\n") + 2 - outside.find("faces = ["),
                  "faces = { plane = \"+z\", at = \"28 mm\" }\n");

  BOOST_TEST(fluids(both + contact) == 1u);
  BOOST_TEST(fluids(both + tied) == 0u);
  BOOST_TEST(fluids(outside + contact) == 0u);
}

BOOST_AUTO_TEST_CASE(a_face_is_wetted_or_meets_another_not_both) {
  const MeshedGeometry meshed = cup_and_lid();
  const MaterialField field = plastic(meshed);
  std::string whole = both;
  whole.replace(whole.find("faces = ["), whole.rfind("]\n") + 2 - whole.find("faces = ["),
                "faces = { plane = \"-z\", at = \"-20 mm\" }\n");

  const auto join = [&] { joined_by(meshed, whole + contact, field); };

  BOOST_TEST(refused(join, "[[contact]] 'flange': face"));
  BOOST_TEST(refused(join, "split the face in CAD"));
}

BOOST_AUTO_TEST_CASE(once_a_joint_opens_its_screw_carries_the_pressure_on_all_that_is_wetted) {
  const double on_hollow = pressure * M_PI * radius * radius;
  const double on_all = pressure * 30.0 * 30.0;
  // More than the hollow's thrust, so that nothing seems to open unless the fluid follows.
  const double loose = 0.5 * on_all;
  BOOST_REQUIRE(loose > 1.5 * on_hollow);

  const JointSolution opened = clamped(loose);
  const JointSolution tight = clamped(2.0 * on_all);

  BOOST_TEST(opened.pairs[0].fluid_pressure.minCoeff() == pressure, tolerance(1e-12));
  BOOST_TEST(opened.screws[0].force == on_all, tolerance(chords));
  BOOST_TEST(tight.pairs[0].fluid_pressure.minCoeff() == 0.0);
  BOOST_TEST(tight.pairs[0].force == tight.screws[0].force - on_hollow, tolerance(0.02));
}

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
