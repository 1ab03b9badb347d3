// SPDX-License-Identifier: GPL-3.0-or-later
// Two rings of two STEP files, put in place and pressed together: from the files to the pressure.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "mesh/meshing.h"
#include "solver/interface/joint_solver.h"
#include "solver/supports/supports.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/joined_blocks.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;
using Eigen::Vector3d;

constexpr double bore = 10.0, seam = 15.0, rim = 25.0, height = 4.0;  // radii, length [mm]
constexpr double E = 2000.0, nu = 0.35, interference = 0.03;          // MPa, -, mm

/// The quarter of a ring with x > 0 and y of this sign.
TopoDS_Shape quarter(double outer, double inner, double sign) {
  const double far = 2.0 * rim;
  const TopoDS_Shape half =
      cut(tube(outer, inner, height), {block(far, 2.0 * far, far, -far, -far, -far / 2.0)});
  return cut(half, {block(far, far, far, 0.0, sign > 0.0 ? -far : 0.0, -far / 2.0)});
}

/// The inner ring, `too_large` in its radius, and the outer one, drawn a quarter of a turn back.
MeshedGeometry rings(double too_large) {
  const StepFile inner({{quarter(seam + too_large, bore, 1.0), "inner", {}, {}}});
  const StepFile outer({{quarter(rim, seam, -1.0), "outer", {}, {}}});
  StepSource placed = outer.import();
  placed.placement = {
      .axis = {0, 0, 1}, .angle = M_PI / 2.0, .about = {25, 0, 0}, .shift = {-25, 25, 0}};
  ImportOptions import = inner.import();
  import.files.push_back(placed);
  import.apart = {{ BodyId{1}, BodyId{2}, too_large }};
  MeshOptions options;
  options.layers = 2;
  return mesh_step(import, options);
}

std::vector<FaceId> flat_faces(const Geometry& geometry, const Vector3d& outward) {
  std::vector<FaceId> found;
  for (const CadFace& face : geometry.faces)
    if (face.kind == SurfaceKind::plane && face.axis.dot(outward) > 0.999) found.push_back(face.id);
  return found;
}

std::vector<FaceId> round_faces(const Geometry& geometry, int body, bool hollow) {
  std::vector<FaceId> found;
  for (const CadFace& face : geometry.faces)
    if (face.kind == SurfaceKind::cylinder && number(face.body) == body && face.hollow == hollow)
      found.push_back(face.id);
  return found;
}

/// Mean pressure between the rings [MPa].
double pressure_between(const MeshedGeometry& meshed, double clearance, bool as_drawn) {
  const Geometry& geometry = meshed.geometry;
  const TetrahedronMesh& mesh = meshed.mesh;
  const SolidMaterial material{isotropic(E, nu), Vector3d::Zero(), 1e-9,
                               LayeredStrength{1.0, 1.0, 1.0, 1.0, 1.0}};
  const MaterialField field =
      uniform_field(mesh, {material, material}, {Frame::Identity(), Frame::Identity()});
  const std::vector<Support> held{{"x", flat_faces(geometry, {-1, 0, 0}), Hold::normal},
                                  {"y", flat_faces(geometry, {0, -1, 0}), Hold::normal},
                                  {"z", flat_faces(geometry, {0, 0, -1}), Hold::normal}};
  StaticSolver solver(mesh, constraints_of(mesh, held), {.method = SolverMethod::direct});
  solver.set_material(field);
  InterfacePair pair = pair_between(mesh, field, round_faces(geometry, 1, false),
                                    round_faces(geometry, 2, true), Unilateral{}, 0.2);
  pair.clearance = clearance;
  pair.distance_counts = as_drawn;
  JointSolver joint(mesh, solver, {{pair}, {}});

  const auto solution = joint.solve({Eigen::VectorXd::Zero(mesh.unknowns()), {}, {}, {}});
  double area = 0.0;
  for (const InterfacePoint& point : pair.points) area += point.area;
  return solution.pairs[0].force / area;
}

/// Of two rings of one material with free ends. Source: Lame (closed form).
double lame_pressure() {
  const auto share = [](double inner, double outer) {
    return (outer * outer + inner * inner) / (outer * outer - inner * inner);
  };
  return interference * E / (seam * (share(bore, seam) + share(seam, rim)));
}

// Curved elements, two in each wall; 1 % of one element's give is left; radii drawn 0.2 % too large
// where the interference is drawn.
constexpr double of_two_layers = 5e-3;

}  // namespace

BOOST_AUTO_TEST_SUITE(assembled_rings)

BOOST_AUTO_TEST_CASE(rings_drawn_touching_press_by_the_interference_that_is_stated) {
  const double pressure = pressure_between(rings(0.0), -interference, false);

  BOOST_TEST(pressure == lame_pressure(), tolerance(of_two_layers));
}

BOOST_AUTO_TEST_CASE(rings_drawn_in_each_other_press_by_the_interference_that_is_drawn) {
  const double pressure = pressure_between(rings(interference), 0.0, true);

  BOOST_TEST(pressure == lame_pressure(), tolerance(of_two_layers));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
