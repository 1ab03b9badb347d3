// SPDX-License-Identifier: GPL-3.0-or-later
// The patch test: R. H. MacNeal and R. L. Harder, Finite Elem. Anal. Des. 1 (1985) 3-20, in the
// form of a distorted mesh that must reproduce a linear displacement field exactly.
#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/loads.h"
#include "solver/static_solver.h"
#include "solver/stress_recovery.h"
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

/// u = G x with no symmetry to hide behind.
const Eigen::Matrix3d displacement_gradient =
    (Eigen::Matrix3d() << 1.0, -0.4, 0.3, 0.2, -0.7, 0.5, -0.1, 0.6, 0.8).finished() * 1e-3;

Vector6d strain_of_gradient(const Eigen::Matrix3d& G) {
  return {G(0, 0), G(1, 1), G(2, 2), G(1, 2) + G(2, 1), G(0, 2) + G(2, 0), G(0, 1) + G(1, 0)};
}

struct Patch {
  TetrahedronMesh mesh = distorted_block();
  Eigen::VectorXd exact = Eigen::Matrix3Xd(displacement_gradient * mesh.nodes).reshaped();
};

/// Tractions of the constant stress on every side, and no support: what holds the block is the
/// removal of rigid motions.
Eigen::VectorXd tractions_of(const TetrahedronMesh& mesh, const Vector6d& s) {
  Eigen::Matrix3d sigma;
  sigma << s[0], s[5], s[4], s[5], s[1], s[3], s[4], s[3], s[2];
  Eigen::VectorXd load = Eigen::VectorXd::Zero(mesh.unknowns());
  // Column by column, a uniform stress in the direction e_i n_j is a pressure load turned to e_i.
  const Eigen::VectorXd area =
      pressure_load(mesh, {FaceId{1}, FaceId{2}, FaceId{3}, FaceId{4}, FaceId{5}, FaceId{6}},
                    [](const Eigen::Vector3d&) { return -1.0; });
  for (Eigen::Index i = 0; i < mesh.node_count(); ++i)
    load.segment<3>(3 * i) = sigma * area.segment<3>(3 * i);
  return load;
}

void require_constant_stress(const MaterialField& field, const Matrix6d& C) {
  const Patch patch;
  const Vector6d stress = C * strain_of_gradient(displacement_gradient);

  StaticSolver solver(patch.mesh, {});
  solver.set_material(field);
  const Eigen::VectorXd u = solver.solve(tractions_of(patch.mesh, stress));
  const auto points = stress_points(patch.mesh);
  const auto recovered = recover_stress(patch.mesh, field, points, u);

  // Round-off of the factorisation over 1e4 of conditioning.
  BOOST_TEST(near(recovered, stress.replicate(1, points.size()), 1e-9));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(patch)

BOOST_AUTO_TEST_CASE(isotropic_distorted_curved_tetrahedra_carry_constant_stress) {
  const Patch patch;
  const auto field = uniform_field(patch.mesh, {plain_solid()}, {Frame::Identity()});
  require_constant_stress(field, stiffness(plain_solid().elastic));
}

BOOST_AUTO_TEST_SUITE_END()
