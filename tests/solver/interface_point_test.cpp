// SPDX-License-Identifier: GPL-3.0-or-later
// What a layer between two faces feels when they move: by the kinematics of rigid bodies and of
// simple shear.
#include "solver/interface/interface_point.h"

#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>

#include "solver/interface/interface_blocks.h"
#include "tests/solver/example_materials.h"
#include "tests/support/joined_blocks.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

constexpr double between = 2.0;  // the faces, along z [mm]

/// A block over another, both of whose near faces bulge by `bulge`.
struct TwoFaces {
  TetrahedronMesh mesh;
  std::vector<InterfacePoint> points;

  explicit TwoFaces(double bulge = 0.0)
      : mesh(two_bodies(block({3, 2, 1}, bulge, 0.0, 5.0), block({2, 3, 1}, bulge, 7.0, 5.0))),
        points(overlap_faces(mesh, triangles_on(mesh, {zeta_high}, "first"),
                             triangles_on(mesh, {of_second(zeta_low)}, "second"), 3.0)
                   .points) {}

  static TetrahedronMesh block(const std::array<int, 3>& cells, double bulge, double low,
                               double height) {
    return block_mesh(cells, [=](const Eigen::Vector3d& s) {
      const double rise = bulge * s.x() * (1.0 - s.x()) * (1.0 + s.y());
      return Eigen::Vector3d(10.0 * s.x(), 8.0 * s.y(), low + height * s.z() + rise);
    });
  }
  template <class Motion>
  Eigen::VectorXd moved(const Motion& motion) const {
    Eigen::VectorXd u(mesh.unknowns());
    for (int n = 0; n < mesh.node_count(); ++n)
      u.segment<3>(3 * n) = motion(Eigen::Vector3d(mesh.nodes.col(n)));
    return u;
  }
  Eigen::VectorXd turned() const {
    const Eigen::Vector3d rotation(0.3, -0.7, 0.5), shift(1.0, 2.0, -3.0);
    return moved(
        [&](const Eigen::Vector3d& x) { return Eigen::Vector3d(rotation.cross(x) + shift); });
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(interface_point)

BOOST_AUTO_TEST_CASE(faces_that_turn_together_do_not_part) {
  for (const double bulge : {0.0, 1.5}) {
    const TwoFaces faces(bulge);
    const Eigen::VectorXd u = faces.turned();
    for (const auto& point : faces.points) {
      // Displacements are of the order of 10 mm.
      BOOST_TEST(jump(faces.mesh, point, u).norm() < 1e-12);
      BOOST_TEST(
          (rotation(faces.mesh, point.sides[1], u) - Eigen::Vector3d(0.3, -0.7, 0.5)).norm() <
          1e-12);
    }
  }
}

BOOST_AUTO_TEST_CASE(simple_shear_parts_them_by_the_layers_share) {
  const TwoFaces faces;
  const Eigen::VectorXd u =
      faces.moved([](const Eigen::Vector3d& x) { return Eigen::Vector3d(0.01 * x.z(), 0.0, 0.0); });

  for (const auto& point : faces.points)
    BOOST_TEST((jump(faces.mesh, point, u) - Eigen::Vector3d(0.01 * between, 0.0, 0.0)).norm() <
               1e-13);
}

BOOST_AUTO_TEST_CASE(the_derivatives_are_the_jumps_own_and_turning_costs_no_force) {
  const TwoFaces faces(1.5);
  const Eigen::VectorXd u = Eigen::VectorXd::Random(faces.mesh.unknowns());
  Eigen::VectorXd rigid = Eigen::VectorXd::Zero(u.size());
  for (const auto& point : faces.points) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    const auto derivatives = jump_derivatives(point);
    for (int a = 0; a < 12; ++a)
      sum +=
          derivatives[a] *
          u.segment<3>(3 * Eigen::Index{faces.mesh.triangles(a % 6, point.sides[a / 6].triangle)});
    BOOST_TEST((sum - jump(faces.mesh, point, u)).norm() < 1e-12);
  }

  std::vector<StiffnessAdditions::Block> blocks;
  const Eigen::Matrix3d shear = Eigen::Vector3d(1.0, 2.0, 50.0).asDiagonal();
  InterfaceBlocks(faces.mesh, faces.points)
      .append(std::vector<Eigen::Matrix3d>(faces.points.size(), shear), blocks);
  const Eigen::VectorXd turned = faces.turned();
  Eigen::VectorXd forces = Eigen::VectorXd::Zero(u.size());
  double energy = 0.0, expected = 0.0;
  for (const auto& [i, j, stiffness] : blocks) {
    const auto at = [](int node) { return 3 * Eigen::Index{node}; };
    forces.segment<3>(at(i)) += stiffness * turned.segment<3>(at(j));
    energy += (i == j ? 1.0 : 2.0) * u.segment<3>(at(i)).dot(stiffness * u.segment<3>(at(j)));
    if (i != j) forces.segment<3>(at(j)) += stiffness.transpose() * turned.segment<3>(at(i));
  }
  for (const auto& point : faces.points) {
    const Eigen::Vector3d apart = jump(faces.mesh, point, u);
    expected += point.area * apart.dot(shear * apart);
  }
  // Single blocks push with thousands of newtons.
  BOOST_TEST(forces.lpNorm<Eigen::Infinity>() < 1e-9);
  BOOST_TEST(std::abs(energy / expected - 1.0) < 1e-12);
}

BOOST_AUTO_TEST_CASE(a_tractions_forces_do_its_work_on_the_jump) {
  const TwoFaces faces(1.5);
  const Eigen::VectorXd u = Eigen::VectorXd::Random(faces.mesh.unknowns());
  const Eigen::Vector3d traction(2.0, -3.0, 7.0);
  for (const auto& point : faces.points) {
    const auto work = work_on_jump(point, traction);

    double done = 0.0;
    for (int a = 0; a < 12; ++a) {
      const int node = faces.mesh.triangles(a % 6, point.sides[a / 6].triangle);
      done += work.col(a).dot(u.segment<3>(3 * Eigen::Index{node}));
    }
    // Shares of the order of 10 N/mm^2 on displacements of 1 mm.
    BOOST_TEST(std::abs(done - traction.dot(jump(faces.mesh, point, u))) < 1e-12);
  }
}

BOOST_AUTO_TEST_SUITE_END()
