// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/iteration/additions_by_rank.h"

namespace crossgrain {
namespace {

// `WithSprings` makes the springs good in front of the iterations; this much of their ground only
// keeps a body there that nothing else holds from being loose.
constexpr double share_of_ground = 0.01;

void add_grounded(const StiffnessAdditions::Spring& spring, std::vector<AddedBlock>& blocks) {
  double sum = 0.0;
  for (const auto& share : spring.shares) sum += share.direction.norm();
  for (const auto& [node, direction] : spring.shares) {
    const double length = direction.norm();
    if (length > 0.0)
      blocks.push_back(
          {node, node,
           share_of_ground * spring.stiffness * sum / length * direction * direction.transpose()});
  }
}

}  // namespace

AdditionsByRank additions_by_rank(StiffnessAdditions additions, const std::vector<int>& rank,
                                  int threads) {
  std::vector<AddedBlock> blocks;
  for (const auto& [i, j, stiffness] : additions.blocks)
    blocks.push_back({rank[i], rank[j], stiffness});
  AdditionsByRank result;
  result.rows = AddedRows<double>(summed(blocks), threads);
  for (auto& spring : additions.springs) {
    for (auto& share : spring.shares) share.node = rank[share.node];
    add_grounded(spring, blocks);
  }
  result.preconditioned = summed(std::move(blocks));
  result.springs = std::move(additions.springs);
  return result;
}

}  // namespace crossgrain
