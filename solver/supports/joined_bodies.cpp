// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/supports/joined_bodies.h"

#include <numeric>

namespace crossgrain {

void join_bodies(const StiffnessAdditions& additions, RigidMotions& rigid) {
  std::vector<int> leader(rigid.bodies.size());
  std::iota(leader.begin(), leader.end(), 0);
  const auto join = [&](int node, int other) {
    const auto find = [&](int body) {
      while (leader[body] != body) body = leader[body] = leader[leader[body]];
      return body;
    };
    const int a = find(rigid.body_of_node[node]), b = find(rigid.body_of_node[other]);
    leader[std::max(a, b)] = std::min(a, b);  // groups in order of their first bodies
  };
  for (const auto& spring : additions.springs)
    if (spring.stiffness > 0.0)
      for (const auto& share : spring.shares) join(spring.shares.front().node, share.node);
  for (const auto& block : additions.blocks)
    if (!block.stiffness.isZero(0.0)) join(block.i, block.j);

  rigid.groups.clear();
  for (std::size_t b = 0; b < rigid.bodies.size(); ++b) {
    RigidBody& body = rigid.bodies[b];
    int first = leader[b];
    while (leader[first] != first) first = leader[first];
    if (first == static_cast<int>(b)) rigid.groups.emplace_back();
    body.group = first == static_cast<int>(b) ? static_cast<int>(rigid.groups.size()) - 1
                                              : rigid.bodies[first].group;
    auto& members = rigid.groups[body.group].bodies;
    body.place = static_cast<int>(members.size());
    members.push_back(static_cast<int>(b));
  }
}

std::vector<Eigen::MatrixXd> stiffness_of_motions(const TetrahedronMesh& mesh,
                                                  const StiffnessAdditions& additions,
                                                  const RigidMotions& rigid) {
  std::vector<Eigen::MatrixXd> stiffness;
  for (const auto& group : rigid.groups) {
    const auto size = 6 * std::ssize(group.bodies);
    stiffness.emplace_back(Eigen::MatrixXd::Zero(size, size));
  }
  const auto body_at = [&](int node) -> const RigidBody& {
    return rigid.bodies[rigid.body_of_node[node]];
  };
  const auto motion_at = [&](int node) { return body_at(node).motion_at(mesh.nodes.col(node)); };
  for (const auto& spring : additions.springs) {
    if (!(spring.stiffness > 0.0) || spring.shares.empty()) continue;
    auto& all = stiffness[body_at(spring.shares.front().node).group];
    Eigen::VectorXd stretch = Eigen::VectorXd::Zero(all.rows());
    for (const auto& [node, direction] : spring.shares)
      stretch.segment<6>(6 * Eigen::Index{body_at(node).place}) +=
          motion_at(node).transpose() * direction;
    all += spring.stiffness * stretch * stretch.transpose();
  }
  for (const auto& block : additions.blocks) {
    if (block.stiffness.isZero(0.0)) continue;
    auto& all = stiffness[body_at(block.i).group];
    const auto i = 6 * Eigen::Index{body_at(block.i).place};
    const auto j = 6 * Eigen::Index{body_at(block.j).place};
    const Eigen::Matrix<double, 6, 6> work =
        motion_at(block.i).transpose() * block.stiffness * motion_at(block.j);
    all.block<6, 6>(i, j) += work;
    if (block.i != block.j) all.block<6, 6>(j, i) += work.transpose();
  }
  return stiffness;
}

}  // namespace crossgrain
