// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/interface_blocks.h"

#include <algorithm>
#include <map>

namespace crossgrain {
namespace {

int node_of(const TetrahedronMesh& mesh, const InterfacePoint& point, int a) {
  return mesh.triangles(a % 6, point.sides[a / 6].triangle);
}

bool same_pair(const InterfacePoint& a, const InterfacePoint& b) {
  return a.sides[0].triangle == b.sides[0].triangle && a.sides[1].triangle == b.sides[1].triangle;
}

}  // namespace

InterfaceBlocks::InterfaceBlocks(const TetrahedronMesh& mesh,
                                 const std::vector<InterfacePoint>& points)
    : mesh_(mesh), points_(points) {
  std::map<std::pair<int, int>, int> slot_of;
  for (std::size_t first = 0; first < points.size();) {
    Pair pair{first, first, {}};
    while (pair.last < points.size() && same_pair(points[first], points[pair.last])) ++pair.last;
    for (int a = 0, k = 0; a < 12; ++a)
      for (int b = a; b < 12; ++b, ++k) {
        const auto nodes =
            std::minmax({node_of(mesh, points[first], a), node_of(mesh, points[first], b)});
        pair.slots[k] = slot_of.emplace(nodes, std::ssize(slot_of)).first->second;
      }
    pairs_.push_back(pair);
    first = pair.last;
  }
  nodes_.resize(slot_of.size());
  for (const auto& [nodes, slot] : slot_of) nodes_[slot] = nodes;
}

void InterfaceBlocks::append(const std::vector<Eigen::Matrix3d>& tangents,
                             std::vector<StiffnessAdditions::Block>& blocks) const {
  const std::size_t offset = blocks.size();
  for (const auto& [i, j] : nodes_) blocks.push_back({i, j, Eigen::Matrix3d::Zero()});
  for (const auto& pair : pairs_)
    for (std::size_t p = pair.first; p < pair.last; ++p) {
      if (tangents[p].isZero(0.0)) continue;
      const auto derivatives = jump_derivatives(points_[p]);
      for (int a = 0, k = 0; a < 12; ++a) {
        const Eigen::Matrix3d pulled = points_[p].area * derivatives[a].transpose() * tangents[p];
        for (int b = a; b < 12; ++b, ++k) {
          auto& block = blocks[offset + pair.slots[k]];
          const Eigen::Matrix3d between = pulled * derivatives[b];
          if (block.i == node_of(mesh_, points_[p], a))
            block.stiffness += between;
          else
            block.stiffness += between.transpose();
        }
      }
    }
}

void add_traction(const TetrahedronMesh& mesh, const InterfacePoint& point,
                  const Eigen::Vector3d& traction, Eigen::VectorXd& forces) {
  const auto work = work_on_jump(point, point.area * traction);
  for (int a = 0; a < 12; ++a)
    forces.segment<3>(3 * Eigen::Index{node_of(mesh, point, a)}) += work.col(a);
}

}  // namespace crossgrain
