// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/interface_blocks.h"

#include <algorithm>
#include <map>

namespace crossgrain {
namespace {

using PairShape = Eigen::Matrix<double, 12, 1>;

/// What each of the twelve nodes does to the jump.
PairShape jump_shape(const InterfacePoint& point) {
  PairShape shape;
  shape << -point.sides[0].shape, point.sides[1].shape;
  return shape;
}

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
      const PairShape shape = jump_shape(points_[p]);
      const Eigen::Matrix3d stiffness = points_[p].area * tangents[p];
      // Tangents are symmetric: which of the two nodes comes first does not matter.
      for (int a = 0, k = 0; a < 12; ++a)
        for (int b = a; b < 12; ++b, ++k)
          blocks[offset + pair.slots[k]].stiffness += shape[a] * shape[b] * stiffness;
    }
}

void add_traction(const TetrahedronMesh& mesh, const InterfacePoint& point,
                  const Eigen::Vector3d& traction, Eigen::VectorXd& forces) {
  const PairShape shape = jump_shape(point);
  for (int a = 0; a < 12; ++a)
    forces.segment<3>(3 * Eigen::Index{node_of(mesh, point, a)}) +=
        shape[a] * point.area * traction;
}

}  // namespace crossgrain
