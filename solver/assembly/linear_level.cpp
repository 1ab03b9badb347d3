// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/assembly/linear_level.h"

#include <numeric>

#include "solver/elements/parallel.h"

namespace crossgrain {

LinearLevel::LinearLevel(const TetrahedronMesh& mesh, const NodeOrder& order, int threads)
    : threads_(threads), ends_(mesh.node_count(), {-1, -1}) {
  const auto ends_of_node = edge_ends(mesh);
  std::vector<int> corner_of_node(mesh.node_count(), -1);
  for (const int node : order.node) {
    if (ends_of_node[node][0] != node) continue;
    corner_of_node[node] = static_cast<int>(corners());
    rank_of_corner_.push_back(order.rank[node]);
  }
  positions_.resize(3, corners());
  for (Eigen::Index corner = 0; corner < corners(); ++corner)
    positions_.col(corner) = mesh.nodes.col(order.node[rank_of_corner_[corner]]);
  middles_start_.assign(corners() + 1, 0);
  for (std::size_t rank = 0; rank < ends_.size(); ++rank) {
    const auto [a, b] = ends_of_node[order.node[rank]];
    if (a < 0) continue;
    ends_[rank] = {corner_of_node[a], corner_of_node[b]};
    if (a != b)
      for (const int corner : ends_[rank]) ++middles_start_[corner + 1];
  }
  std::partial_sum(middles_start_.begin(), middles_start_.end(), middles_start_.begin());
  middles_.resize(middles_start_.back());
  std::vector<int> next(middles_start_.begin(), middles_start_.end() - 1);
  for (std::size_t rank = 0; rank < ends_.size(); ++rank)
    if (ends_[rank][0] != ends_[rank][1])
      for (const int corner : ends_[rank]) middles_[next[corner]++] = static_cast<int>(rank);
}

void LinearLevel::restrict_to_corners(const NodeVectors<float>& forces,
                                      NodeVectors<float>& at_corners) const {
  in_parallel(corners(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto corner = begin; corner < end; ++corner)
      for (int c = 0; c < forces.columns(); ++c) {
        Eigen::Vector4f sum = Eigen::Vector4f::Zero();
        for (int k = middles_start_[corner]; k < middles_start_[corner + 1]; ++k)
          sum += forces.at(middles_[k], c);
        at_corners.at(corner, c) = forces.at(rank_of_corner_[corner], c) + 0.5F * sum;
      }
  });
}

void LinearLevel::add_from_corners(const NodeVectors<float>& at_corners,
                                   NodeVectors<float>& all) const {
  in_parallel(all.nodes(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto i = begin; i < end; ++i) {
      const auto [a, b] = ends_[i];
      if (a < 0) continue;
      for (int c = 0; c < all.columns(); ++c)
        all.at(i, c) += 0.5F * (at_corners.at(a, c) + at_corners.at(b, c));
    }
  });
}

}  // namespace crossgrain
