// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/supports/rigid_motions.h"

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <Eigen/QR>
#include <Eigen/SVD>
#include <algorithm>
#include <cmath>

#include "solver/supports/joined_bodies.h"

namespace crossgrain {
namespace {

using Motions = Eigen::Matrix<double, 6, Eigen::Dynamic>;

struct Spread {
  Eigen::Vector3d centre;
  double length;
};

Spread spread_of(const TetrahedronMesh& mesh, const std::vector<int>& nodes) {
  Spread spread{Eigen::Vector3d::Zero(), 0.0};
  for (int node : nodes) spread.centre += mesh.nodes.col(node);
  spread.centre /= static_cast<double>(nodes.size());
  for (int node : nodes) spread.length += (mesh.nodes.col(node) - spread.centre).squaredNorm();
  spread.length = std::sqrt(spread.length / static_cast<double>(nodes.size()));
  return spread;
}

/// Motions that all these rows (held components of the six motions) leave at rest.
Motions null_space(Eigen::Matrix<double, -1, 6> rows) {
  if (rows.rows() < 6) {
    const auto given = rows.rows();
    rows.conservativeResize(6, 6);
    rows.bottomRows(6 - given).setZero();
  }
  const Eigen::JacobiSVD<Eigen::Matrix<double, -1, 6>, Eigen::HouseholderQRPreconditioner> svd(
      rows, Eigen::ComputeFullV);
  const auto& strength = svd.singularValues();
  int rank = 0;
  while (rank < 6 && strength[rank] > weakest_hold * strength[0]) ++rank;
  return svd.matrixV().rightCols(6 - rank);
}

/// The same motions, their six numbers meant in another frame.
Motions in_frame(const Motions& motions, const RigidBody& from, const RigidBody& to) {
  Motions result = motions;
  for (Eigen::Index k = 0; k < motions.cols(); ++k) {
    result.col(k).head<3>() = from.motion_at(to.centre) * motions.col(k);
    result.col(k).tail<3>() *= to.length / from.length;
  }
  if (motions.cols() == 0) return result;
  const Eigen::HouseholderQR<Eigen::MatrixXd> qr(result);
  return qr.householderQ() * Eigen::MatrixXd::Identity(6, result.cols());
}

/// What constraints leave free. Their strength is measured in the frame of the held nodes: a small
/// pad holds a large part well.
Motions free_motions(const TetrahedronMesh& mesh, const RigidBody& body,
                     const std::vector<const NodeConstraint*>& constraints) {
  if (constraints.empty()) return Motions::Identity(6, 6);
  std::vector<int> nodes;
  Eigen::Index count = 0;
  for (const auto* constraint : constraints) {
    nodes.push_back(constraint->node);
    count += constraint->held.cols();
  }
  const Spread spread = spread_of(mesh, nodes);
  RigidBody frame{spread.centre, spread.length};
  if (!(frame.length > 1e-9 * body.length)) frame.length = body.length;  // one node only
  Eigen::Matrix<double, -1, 6> rows(count, 6);
  Eigen::Index row = 0;
  for (const auto* constraint : constraints) {
    const auto held = constraint->held.cols();
    rows.middleRows(row, held) =
        constraint->held.transpose() * frame.motion_at(mesh.nodes.col(constraint->node));
    row += held;
  }
  return in_frame(null_space(rows), frame, body);
}

/// Motions of a group's bodies side by side, one block of columns a body.
Eigen::MatrixXd side_by_side(const RigidGroup& group, const std::vector<Motions>& of_body) {
  Eigen::Index columns = 0;
  for (const int b : group.bodies) columns += of_body[b].cols();
  Eigen::MatrixXd all = Eigen::MatrixXd::Zero(6 * std::ssize(group.bodies), columns);
  Eigen::Index row = 0, column = 0;
  for (const int b : group.bodies) {
    all.block(row, column, 6, of_body[b].cols()) = of_body[b];
    row += 6;
    column += of_body[b].cols();
  }
  return all;
}

/// Those of the motions that added stiffness does not resist.
Eigen::MatrixXd not_resisted(const Eigen::MatrixXd& motions, const Eigen::MatrixXd& stiffness) {
  if (motions.cols() == 0 || stiffness.isZero(0.0)) return motions;
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> whole(stiffness, Eigen::EigenvaluesOnly);
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> here(motions.transpose() * stiffness *
                                                            motions);
  const double least = weakest_added_hold * weakest_added_hold * whole.eigenvalues().maxCoeff();
  const auto free = (here.eigenvalues().array() <= least).count();
  return motions * here.eigenvectors().leftCols(free);
}

}  // namespace

Eigen::Matrix<double, 3, 6> RigidBody::motion_at(const Eigen::Vector3d& position) const {
  const Eigen::Vector3d arm = (position - centre) / length;
  Eigen::Matrix<double, 3, 6> motion;
  motion.leftCols<3>().setIdentity();
  for (int axis = 0; axis < 3; ++axis)
    motion.col(3 + axis) = Eigen::Vector3d::Unit(axis).cross(arm);
  return motion;
}

int RigidMotions::group_of(int node) const {
  return body_of_node[node] < 0 ? -1 : bodies[body_of_node[node]].group;
}

bool RigidMotions::any_free() const {
  return std::any_of(groups.begin(), groups.end(),
                     [](const RigidGroup& group) { return group.free.cols() > 0; });
}

Eigen::Matrix<double, 3, Eigen::Dynamic> RigidMotions::free_at(const TetrahedronMesh& mesh,
                                                               int node) const {
  const RigidBody& body = bodies[body_of_node[node]];
  return body.motion_at(mesh.nodes.col(node)) *
         groups[body.group].free.middleRows<6>(6 * Eigen::Index{body.place});
}

RigidMotions rigid_motions(const TetrahedronMesh& mesh,
                           const std::vector<NodeConstraint>& constraints,
                           const StiffnessAdditions& additions) {
  RigidMotions rigid{connected_groups(mesh), {}, {}};
  const int count = *std::max_element(rigid.body_of_node.begin(), rigid.body_of_node.end()) + 1;
  std::vector<std::vector<int>> nodes(count);
  for (int i = 0; i < mesh.node_count(); ++i)
    if (rigid.body_of_node[i] >= 0) nodes[rigid.body_of_node[i]].push_back(i);
  std::vector<std::vector<const NodeConstraint*>> held(count);
  for (const auto& constraint : constraints)
    if (const int b = rigid.body_of_node[constraint.node]; b >= 0) held[b].push_back(&constraint);
  std::vector<Motions> free_of_body;
  for (int b = 0; b < count; ++b) {
    const Spread spread = spread_of(mesh, nodes[b]);
    rigid.bodies.push_back({spread.centre, spread.length});
    free_of_body.push_back(free_motions(mesh, rigid.bodies[b], held[b]));
  }

  join_bodies(additions, rigid);
  const auto stiffness = stiffness_of_motions(mesh, additions, rigid);
  for (std::size_t g = 0; g < rigid.groups.size(); ++g) {
    RigidGroup& group = rigid.groups[g];
    std::vector<int> own;
    for (const int b : group.bodies) own.insert(own.end(), nodes[b].begin(), nodes[b].end());
    const Spread spread = spread_of(mesh, own);
    group.centre = spread.centre;
    group.length = spread.length;
    group.free = not_resisted(side_by_side(group, free_of_body), stiffness[g]);
  }
  return rigid;
}

bool same_freedom(const RigidMotions& a, const RigidMotions& b) {
  constexpr double same_span = 1e-6;
  return std::equal(a.groups.begin(), a.groups.end(), b.groups.begin(), b.groups.end(),
                    [](const RigidGroup& g, const RigidGroup& h) {
                      return g.bodies == h.bodies && g.free.cols() == h.free.cols() &&
                             (g.free - h.free * (h.free.transpose() * g.free)).norm() <= same_span;
                    });
}

}  // namespace crossgrain
