// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/supports/supports.h"

#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <map>

#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

TetrahedronMesh cube() { return box_mesh({2, 2, 2}, {2.0, 2.0, 2.0}); }

TetrahedronMesh ring() {
  return welded(block_mesh({12, 1, 2},
                           [](const Eigen::Vector3d& u) {
                             const double r = 10.0 + 2.0 * u.y(), angle = 2.0 * M_PI * u.x();
                             return Eigen::Vector3d(r * std::cos(angle), r * std::sin(angle),
                                                    5.0 * u.z());
                           }),
                1e-9);
}

std::map<int, Eigen::MatrixXd> by_node(const std::vector<NodeConstraint>& constraints) {
  std::map<int, Eigen::MatrixXd> result;
  for (const auto& constraint : constraints) result[constraint.node] = constraint.held;
  return result;
}

template <class Call>
void require_refused(const Call& call, const std::string& words) {
  BOOST_CHECK_EXCEPTION(call(), std::invalid_argument, [&](const auto& error) {
    return std::string(error.what()).find(words) != std::string::npos;
  });
}

}  // namespace

BOOST_AUTO_TEST_SUITE(supports)

BOOST_AUTO_TEST_CASE(a_full_hold_holds_three_directions_at_each_node_of_the_face) {
  const auto mesh = cube();

  const auto constraints = constraints_of(mesh, {{"base", {zeta_low}, Hold::all}});

  BOOST_TEST(constraints.size() == nodes_on(mesh, {zeta_low}).size());
  for (const auto& constraint : constraints)
    BOOST_TEST(
        near(constraint.held * constraint.held.transpose(), Eigen::Matrix3d::Identity(), 1e-14));
}

BOOST_AUTO_TEST_CASE(a_direction_is_held_at_any_length) {
  const auto constraints =
      constraints_of(cube(), {{"rail", {xi_low}, Hold::direction, {0.0, 3.0, 4.0}}});

  for (const auto& constraint : constraints)
    BOOST_TEST(near(constraint.held, Eigen::Vector3d(0.0, 0.6, 0.8), 1e-14));
}

BOOST_AUTO_TEST_CASE(sliding_sides_hold_one_two_and_three_normals_at_face_edge_and_corner) {
  const auto mesh = cube();

  const auto held =
      by_node(constraints_of(mesh, {{"three planes", {xi_low, eta_low, zeta_low}, Hold::normal}}));

  BOOST_TEST(held.at(nearest_node(mesh, {0.0, 1.0, 1.0})).cols() == 1);
  BOOST_TEST(near(held.at(nearest_node(mesh, {0.0, 1.0, 1.0})).cwiseAbs(), Eigen::Vector3d::UnitX(),
                  1e-14));
  const Eigen::MatrixXd edge = held.at(nearest_node(mesh, {0.0, 0.0, 1.0}));
  BOOST_TEST(edge.cols() == 2);
  BOOST_TEST(near(edge * edge.transpose(),
                  Eigen::Matrix3d(Eigen::Vector3d(1.0, 1.0, 0.0).asDiagonal()), 1e-14));
  BOOST_TEST(held.at(nearest_node(mesh, {0.0, 0.0, 0.0})).cols() == 3);
}

BOOST_AUTO_TEST_CASE(a_sliding_bore_holds_its_radius_and_nothing_else) {
  const auto mesh = ring();

  const auto constraints = constraints_of(mesh, {{"bore", {eta_low}, Hold::normal}});

  BOOST_TEST(constraints.size() == nodes_on(mesh, {eta_low}).size());
  for (const auto& [node, held] : constraints) {
    Eigen::Vector3d radial = mesh.nodes.col(node);
    radial.z() = 0.0;
    BOOST_TEST(held.cols() == 1);
    // Quadratic triangles of 30 degrees miss the true normal by this much at most.
    BOOST_TEST(std::abs(held.col(0).dot(radial.normalized())) == 1.0, tolerance(1e-5));
  }
}

BOOST_AUTO_TEST_CASE(normals_on_both_sides_of_a_smooth_seam_are_one_direction) {
  auto mesh = ring();
  // Cut the bore into two CAD faces, as kernels do.
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t)
    if (mesh.face_of_triangle[t] == eta_low && mesh.nodes.row(1)(mesh.triangles.col(t)).sum() > 0.0)
      mesh.face_of_triangle[t] = FaceId{7};

  const auto constraints = constraints_of(mesh, {{"bore", {eta_low, FaceId{7}}, Hold::normal}});

  for (const auto& constraint : constraints) BOOST_TEST(constraint.held.cols() == 1);
}

BOOST_AUTO_TEST_CASE(supports_that_share_a_node_join_their_directions) {
  const auto mesh = cube();

  const auto held =
      by_node(constraints_of(mesh, {{"floor", {zeta_low}, Hold::normal},
                                    {"stop", {xi_low}, Hold::direction, {1.0, 0.0, 0.0}},
                                    {"again", {xi_low}, Hold::direction, {-1.0, 0.0, 0.001}}}));

  BOOST_TEST(held.at(nearest_node(mesh, {1.0, 1.0, 0.0})).cols() == 1);
  BOOST_TEST(held.at(nearest_node(mesh, {0.0, 1.0, 0.0})).cols() == 2);
  BOOST_TEST(held.at(nearest_node(mesh, {0.0, 1.0, 1.0})).cols() == 1);
}

BOOST_AUTO_TEST_CASE(a_support_that_holds_nothing_is_refused) {
  require_refused(
      [] {
        constraints_of(cube(), {{"foot", {FaceId{12}}, Hold::all}});
      },
      "foot: face 12 has no triangles in the mesh");
  require_refused(
      [] {
        constraints_of(cube(), {{"foot", {xi_low}, Hold::direction}});
      },
      "support 'foot': its direction has no length");
}

BOOST_AUTO_TEST_CASE(free_rigid_motions_are_counted_for_every_way_of_holding) {
  const auto mesh = cube();
  const auto free_after = [&](const std::vector<Support>& supports) {
    return free_rigid_motions(mesh, constraints_of(mesh, supports)).cols();
  };

  BOOST_TEST(free_after({}) == 6);
  BOOST_TEST(free_after({{"floor", {zeta_low}, Hold::normal}}) == 3);
  BOOST_TEST(free_after({{"corner", {zeta_low, xi_low}, Hold::normal}}) == 1);
  BOOST_TEST(free_after({{"niche", {zeta_low, xi_low, eta_low}, Hold::normal}}) == 0);
  BOOST_TEST(free_after({{"floor", {zeta_low}, Hold::all}}) == 0);
  BOOST_TEST(free_rigid_motions(mesh, {{3, Eigen::Matrix3d::Identity()}}).cols() == 3);
}

BOOST_AUTO_TEST_CASE(a_sliding_bore_leaves_its_rotation_and_its_axis_free) {
  const auto mesh = ring();

  const auto motions =
      free_rigid_motions(mesh, constraints_of(mesh, {{"bore", {eta_low}, Hold::normal}}));

  BOOST_TEST(motions.cols() == 2);
  // The turn about the axis and the shift along it lie in the span.
  Eigen::MatrixXd exact(mesh.unknowns(), 2);
  for (Eigen::Index i = 0; i < mesh.node_count(); ++i) {
    exact.block<3, 1>(3 * i, 0) = Eigen::Vector3d::UnitZ();
    exact.block<3, 1>(3 * i, 1) = Eigen::Vector3d::UnitZ().cross(mesh.nodes.col(i));
  }
  BOOST_TEST(near(motions * (motions.transpose() * exact), exact, 1e-3));
}

BOOST_AUTO_TEST_CASE(a_small_pad_holds_a_long_part) {
  // 0.5 mm of 500.
  const auto bar = block_mesh({8, 1, 1}, [](const Eigen::Vector3d& u) {
    return Eigen::Vector3d(500.0 * std::pow(u.x(), 3.0), u.y(), u.z());
  });
  std::vector<NodeConstraint> pad;
  for (int node : nodes_on(bar, {xi_low})) pad.push_back({node, Eigen::Matrix3d::Identity()});

  BOOST_TEST(free_rigid_motions(bar, pad).cols() == 0);
}

BOOST_AUTO_TEST_CASE(free_rigid_motions_are_orthonormal_rigid_and_respect_the_constraints) {
  const auto mesh = joined(cube(), ring(), 10);
  const auto constraints = constraints_of(mesh, {{"floor", {zeta_low}, Hold::normal}});

  const auto motions = free_rigid_motions(mesh, constraints);

  BOOST_TEST(motions.cols() == 3 + 6);
  BOOST_TEST(near(motions.transpose() * motions, Eigen::MatrixXd::Identity(9, 9), 1e-12));
  for (const auto& [node, held] : constraints)
    BOOST_TEST((held.transpose() * motions.middleRows<3>(3 * node)).norm() < 1e-12);
  // Rigid: the distance of two nodes does not change.
  const Eigen::Vector3d apart = mesh.nodes.col(3) - mesh.nodes.col(70);
  BOOST_TEST(
      (apart.transpose() * (motions.middleRows<3>(3 * 3) - motions.middleRows<3>(3 * 70))).norm() <
      1e-12);
}

BOOST_AUTO_TEST_CASE(groups_are_what_shared_nodes_connect) {
  auto mesh = joined(cube(), ring(), 10);
  mesh.nodes.conservativeResize(3, mesh.node_count() + 1);
  mesh.nodes.rightCols<1>().setZero();

  const auto group = connected_groups(mesh);

  BOOST_TEST(group.front() == 0);
  BOOST_TEST(group[cube().node_count() - 1] == 0);
  BOOST_TEST(group[cube().node_count()] == 1);
  BOOST_TEST(group[mesh.node_count() - 2] == 1);
  BOOST_TEST(group.back() == -1);
}

BOOST_AUTO_TEST_SUITE_END()
