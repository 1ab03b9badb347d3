// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/supports/rigid_motions.h"

#include <Eigen/Geometry>
#include <Eigen/QR>
#include <Eigen/SVD>
#include <algorithm>
#include <cassert>
#include <cmath>

namespace crossgrain {
namespace {

using Motions = Eigen::Matrix<double, 6, Eigen::Dynamic>;

/// The frame in which the motions of a set of nodes are of like size.
RigidGroup frame_of(const TetrahedronMesh& mesh, int group, const std::vector<int>& nodes) {
  RigidGroup frame{group, Eigen::Vector3d::Zero(), 0.0, {}};
  for (int node : nodes) frame.centre += mesh.nodes.col(node);
  frame.centre /= static_cast<double>(nodes.size());
  for (int node : nodes) frame.length += (mesh.nodes.col(node) - frame.centre).squaredNorm();
  frame.length = std::sqrt(frame.length / static_cast<double>(nodes.size()));
  return frame;
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
Motions in_frame(const Motions& motions, const RigidGroup& from, const RigidGroup& to) {
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
Motions free_motions(const TetrahedronMesh& mesh, const RigidGroup& group,
                     const std::vector<const NodeConstraint*>& constraints) {
  if (constraints.empty()) return Motions::Identity(6, 6);
  std::vector<int> nodes;
  Eigen::Index count = 0;
  for (const auto* constraint : constraints) {
    nodes.push_back(constraint->node);
    count += constraint->held.cols();
  }
  auto frame = frame_of(mesh, group.group, nodes);
  if (!(frame.length > 1e-9 * group.length)) frame.length = group.length;  // one node only
  Eigen::Matrix<double, -1, 6> rows(count, 6);
  Eigen::Index row = 0;
  for (const auto* constraint : constraints) {
    const auto held = constraint->held.cols();
    rows.middleRows(row, held) =
        constraint->held.transpose() * frame.motion_at(mesh.nodes.col(constraint->node));
    row += held;
  }
  return in_frame(null_space(rows), frame, group);
}

struct Candidate {
  int node;
  Eigen::Vector3d direction;
  Eigen::RowVectorXd motion;  ///< along the direction, of each free motion
};

/// Greedy elimination with full pivoting: as many candidates as there are motions, independent.
std::vector<Candidate> determinate_choice(std::vector<Candidate> candidates, Eigen::Index motions) {
  std::vector<Candidate> chosen;
  for (Eigen::Index step = 0; step < motions; ++step) {
    const auto pivot = *std::max_element(
        candidates.begin(), candidates.end(),
        [](const auto& a, const auto& b) { return a.motion.norm() < b.motion.norm(); });
    assert(pivot.motion.norm() > 0.0);
    chosen.push_back(pivot);
    const Eigen::RowVectorXd along = pivot.motion.normalized();
    for (auto& candidate : candidates) candidate.motion -= candidate.motion.dot(along) * along;
  }
  return chosen;
}

std::vector<const NodeConstraint*> by_node(const TetrahedronMesh& mesh,
                                           const std::vector<NodeConstraint>& constraints) {
  std::vector<const NodeConstraint*> at(mesh.node_count(), nullptr);
  for (const auto& constraint : constraints) at[constraint.node] = &constraint;
  return at;
}

}  // namespace

Eigen::Matrix<double, 3, 6> RigidGroup::motion_at(const Eigen::Vector3d& position) const {
  const Eigen::Vector3d arm = (position - centre) / length;
  Eigen::Matrix<double, 3, 6> motion;
  motion.leftCols<3>().setIdentity();
  for (int axis = 0; axis < 3; ++axis)
    motion.col(3 + axis) = Eigen::Vector3d::Unit(axis).cross(arm);
  return motion;
}

NodeDirections complement(const NodeDirections& held) {
  if (held.cols() == 0) return Eigen::Matrix3d::Identity();
  if (held.cols() == 3) return NodeDirections(3, 0);
  const Eigen::Matrix3d Q = Eigen::HouseholderQR<Eigen::MatrixXd>(held).householderQ();
  return Q.rightCols(3 - held.cols());
}

std::vector<RigidGroup> rigid_groups(const TetrahedronMesh& mesh,
                                     const std::vector<int>& group_of_node,
                                     const std::vector<NodeConstraint>& constraints) {
  const int count = *std::max_element(group_of_node.begin(), group_of_node.end()) + 1;
  std::vector<std::vector<int>> nodes(count);
  for (int i = 0; i < mesh.node_count(); ++i)
    if (group_of_node[i] >= 0) nodes[group_of_node[i]].push_back(i);
  std::vector<std::vector<const NodeConstraint*>> held(count);
  for (const auto& constraint : constraints)
    if (group_of_node[constraint.node] >= 0)
      held[group_of_node[constraint.node]].push_back(&constraint);
  std::vector<RigidGroup> groups;
  for (int g = 0; g < count; ++g) {
    groups.push_back(frame_of(mesh, g, nodes[g]));
    groups[g].free = free_motions(mesh, groups[g], held[g]);
  }
  return groups;
}

std::vector<NodeConstraint> with_determinate_holds(const TetrahedronMesh& mesh,
                                                   const std::vector<int>& group_of_node,
                                                   const std::vector<RigidGroup>& groups,
                                                   const std::vector<NodeConstraint>& constraints) {
  const auto held_at = by_node(mesh, constraints);
  std::vector<bool> is_corner(mesh.node_count(), false);
  for (const auto& nodes : mesh.tetrahedra.colwise())
    for (int a = 0; a < 4; ++a) is_corner[nodes[a]] = true;
  std::vector<std::vector<Candidate>> candidates(groups.size());
  for (int node = 0; node < mesh.node_count(); ++node) {
    const int g = group_of_node[node];
    if (g < 0 || groups[g].free.cols() == 0 || !is_corner[node]) continue;
    const Eigen::MatrixXd motion = groups[g].motion_at(mesh.nodes.col(node)) * groups[g].free;
    const auto free = complement(held_at[node] ? held_at[node]->held : NodeDirections(3, 0));
    for (const auto& direction : free.colwise())
      candidates[g].push_back({node, direction, direction.transpose() * motion});
  }

  auto result = constraints;
  std::vector<int> place(mesh.node_count(), -1);
  for (std::size_t i = 0; i < result.size(); ++i) place[result[i].node] = static_cast<int>(i);
  for (const auto& group : groups) {
    for (const auto& hold : determinate_choice(candidates[group.group], group.free.cols())) {
      if (place[hold.node] < 0) {
        place[hold.node] = static_cast<int>(result.size());
        result.push_back({hold.node, NodeDirections(3, 0)});
      }
      auto& held = result[place[hold.node]].held;
      held.conservativeResize(3, held.cols() + 1);
      held.rightCols<1>() = hold.direction;
    }
  }
  return result;
}

}  // namespace crossgrain
