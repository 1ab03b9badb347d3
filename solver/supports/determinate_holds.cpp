// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/supports/determinate_holds.h"

#include <Eigen/QR>
#include <algorithm>
#include <cassert>

namespace crossgrain {
namespace {

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

NodeDirections complement(const NodeDirections& held) {
  if (held.cols() == 0) return Eigen::Matrix3d::Identity();
  if (held.cols() == 3) return NodeDirections(3, 0);
  const Eigen::Matrix3d Q = Eigen::HouseholderQR<Eigen::MatrixXd>(held).householderQ();
  return Q.rightCols(3 - held.cols());
}

std::vector<NodeConstraint> with_determinate_holds(const TetrahedronMesh& mesh,
                                                   const RigidMotions& rigid,
                                                   const std::vector<NodeConstraint>& constraints) {
  const auto held_at = by_node(mesh, constraints);
  std::vector<bool> is_corner(mesh.node_count(), false);
  for (const auto& nodes : mesh.tetrahedra.colwise())
    for (int a = 0; a < 4; ++a) is_corner[nodes[a]] = true;
  std::vector<std::vector<Candidate>> candidates(rigid.groups.size());
  for (int node = 0; node < mesh.node_count(); ++node) {
    const int g = rigid.group_of(node);
    if (g < 0 || rigid.groups[g].free.cols() == 0 || !is_corner[node]) continue;
    const auto motion = rigid.free_at(mesh, node);
    const auto free = complement(held_at[node] ? held_at[node]->held : NodeDirections(3, 0));
    for (const auto& direction : free.colwise())
      candidates[g].push_back({node, direction, direction.transpose() * motion});
  }

  auto result = constraints;
  std::vector<int> place(mesh.node_count(), -1);
  for (std::size_t i = 0; i < result.size(); ++i) place[result[i].node] = static_cast<int>(i);
  for (std::size_t g = 0; g < candidates.size(); ++g) {
    for (const auto& hold :
         determinate_choice(std::move(candidates[g]), rigid.groups[g].free.cols())) {
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
