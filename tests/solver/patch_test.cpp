// SPDX-License-Identifier: GPL-3.0-or-later
// The patch test: R. H. MacNeal and R. L. Harder, Finite Elem. Anal. Des. 1 (1985) 3-20, in the
// form of a distorted mesh that must reproduce a linear displacement field exactly.
#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/loads/loads.h"
#include "solver/static_solver.h"
#include "solver/stress/stress_recovery.h"
#include "tests/solver/example_materials.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

/// A block of 5 x 4 x 3 mm whose inner nodes are pushed about and whose outer sides are curved.
TetrahedronMesh distorted_block() {
  return block_mesh({3, 2, 2}, [](const Eigen::Vector3d& u) {
    const Eigen::Vector3d swing(std::sin(5.0 * u.y() + u.z()), std::sin(4.0 * u.z() + 2.0 * u.x()),
                                std::sin(6.0 * u.x() - u.y()));
    return Eigen::Vector3d(u.cwiseProduct(Eigen::Vector3d(5.0, 4.0, 3.0)) + 0.12 * swing);
  });
}

double volume_of(const TetrahedronMesh& mesh) {
  auto light = plain_solid();
  light.density = 1.0;
  return body_masses(mesh, uniform_field(mesh, {light}, {Frame::Identity()})).at(0);
}

/// u = G x with no symmetry to hide behind.
const Eigen::Matrix3d displacement_gradient =
    (Eigen::Matrix3d() << 1.0, -0.4, 0.3, 0.2, -0.7, 0.5, -0.1, 0.6, 0.8).finished() * 1e-3;

Vector6d strain_of_gradient(const Eigen::Matrix3d& G) {
  return {G(0, 0), G(1, 1), G(2, 2), G(1, 2) + G(2, 1), G(0, 2) + G(2, 0), G(0, 1) + G(1, 0)};
}

const std::vector<FaceId> all_sides{xi_low, xi_high, eta_low, eta_high, zeta_low, zeta_high};

Eigen::VectorXd linear_displacement(const TetrahedronMesh& mesh) {
  return Eigen::Matrix3Xd(displacement_gradient * mesh.nodes).reshaped();
}

/// Tractions of a constant stress on every side.
Eigen::VectorXd tractions_of(const TetrahedronMesh& mesh, const Vector6d& s) {
  Eigen::Matrix3d sigma;
  sigma << s[0], s[5], s[4], s[5], s[1], s[3], s[4], s[3], s[2];
  // Nodal vector areas are those of a unit suction; each carries the traction sigma n.
  const Eigen::VectorXd areas =
      pressure_load(mesh, all_sides, [](const Eigen::Vector3d&) { return -1.0; });
  return (sigma * areas.reshaped(3, mesh.node_count())).reshaped();
}

/// No support: the removal of rigid motions is all that holds the block.
void require_constant_stress(const TetrahedronMesh& mesh, const MaterialField& field,
                             const Matrix6d& C) {
  const Vector6d strain = strain_of_gradient(displacement_gradient);
  const Vector6d stress = C * strain;

  StaticSolver solver(mesh, {});
  solver.set_material(field);
  const Eigen::VectorXd u = solver.solve(tractions_of(mesh, stress));
  const auto points = stress_points(mesh);
  const auto recovered = recover_stress(mesh, field, points, u);

  // Round-off, times a condition number of 1e4.
  BOOST_TEST(near(recovered, stress.replicate(1, points.size()), 1e-9));
  BOOST_TEST(strain_energy(mesh, field, u) == 0.5 * stress.dot(strain) * volume_of(mesh),
             boost::test_tools::tolerance(1e-9));
}

/// The nodal forces of the exact displacement must be those of the exact tractions: zero inside.
void require_exact_forces(const TetrahedronMesh& mesh, const MaterialField& field,
                          const Matrix6d& C) {
  const Vector6d stress = C * strain_of_gradient(displacement_gradient);
  StaticSolver solver(mesh, {});
  solver.set_material(field);

  const Eigen::VectorXd forces = solver.internal_forces(linear_displacement(mesh));

  BOOST_TEST(near(forces, tractions_of(mesh, stress), 1e-9));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(patch)

BOOST_AUTO_TEST_CASE(distorted_curved_tetrahedra_carry_constant_stress) {
  const auto mesh = distorted_block();
  const auto field = uniform_field(mesh, {plain_solid()}, {Frame::Identity()});
  const Matrix6d C = stiffness(plain_solid().elastic);

  require_constant_stress(mesh, field, C);
  require_exact_forces(mesh, field, C);
}

BOOST_AUTO_TEST_CASE(so_they_do_with_nine_constants_in_a_skew_frame) {
  const auto mesh = distorted_block();
  const auto field = uniform_field(mesh, {nine_constant_solid()}, {skew_frame()});
  const Matrix6d C = rotate_stiffness(stiffness(nine_constant_solid().elastic), skew_frame());

  require_constant_stress(mesh, field, C);
  require_exact_forces(mesh, field, C);
}

BOOST_AUTO_TEST_CASE(a_frame_per_point_gives_what_one_frame_gives) {
  const auto mesh = distorted_block();
  auto field = uniform_field(mesh, {nine_constant_solid()}, {skew_frame()});
  field.frame_of_point = Eigen::MatrixXi::Zero(mesh.tetrahedron_count(), stiffness_rule().size());
  const Matrix6d C = rotate_stiffness(stiffness(nine_constant_solid().elastic), skew_frame());

  require_constant_stress(mesh, field, C);
  require_exact_forces(mesh, field, C);
}

BOOST_AUTO_TEST_CASE(a_skew_orthotropic_block_expands_freely_without_stress) {
  const auto mesh = distorted_block();
  const auto solid = nine_constant_solid();
  const auto field = uniform_field(mesh, {solid}, {skew_frame()});
  const double kelvin = 40.0;
  const Eigen::VectorXd warmer = Eigen::VectorXd::Constant(mesh.node_count(), kelvin);

  StaticSolver solver(mesh, {});
  solver.set_material(field);
  const Eigen::VectorXd u = solver.solve(thermal_load(mesh, field, warmer));
  const auto stress = recover_stress(mesh, field, stress_points(mesh), u, warmer);

  // Held, the block would carry E alpha dT = 5 MPa or so.
  BOOST_TEST(stress.allFinite());
  BOOST_TEST(stress.cwiseAbs().maxCoeff() < 1e-9 * 5.0);
  const Eigen::Matrix3d expansion =
      skew_frame() * solid.thermal_expansion.asDiagonal() * skew_frame().transpose();
  // Along a line of nodes, so that the turn that mass weighting leaves does not count.
  const Eigen::Vector3d apart = mesh.nodes.col(7) - mesh.nodes.col(90);
  const Eigen::Vector3d longer = u.segment<3>(3 * 7) - u.segment<3>(3 * 90);
  BOOST_TEST(apart.dot(longer) == kelvin * apart.dot(expansion * apart),
             boost::test_tools::tolerance(1e-9));
}

BOOST_AUTO_TEST_SUITE_END()
