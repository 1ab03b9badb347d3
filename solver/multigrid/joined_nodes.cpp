// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/multigrid/joined_nodes.h"

namespace crossgrain {
namespace {

// In traces of diagonal blocks. A bedding of 10 E/h, h the length of an element, takes no more
// iterations than glue; at 1000 E/h they are six times as many without this.
constexpr double stiff = 3.0;

std::vector<int> stiffly_joined(const BlockPattern& pattern, const Blocks<double>& K,
                                const AddedBlocks& added) {
  std::vector<char> joined(pattern.nodes(), 0);
  for (const auto& block : added)
    if (block.row != block.column) joined[block.row] = joined[block.column] = 1;
  std::vector<int> nodes;
  for (const auto& block : added)
    if (block.row == block.column && joined[block.row] != 0 &&
        block.value.trace() > stiff * K[pattern.row_start[block.row]].trace())
      nodes.push_back(block.row);
  return nodes;
}

}  // namespace

JoinedNodes::JoinedNodes(const BlockPattern& pattern, const Blocks<double>& K,
                         const FreeDirections& free, const AddedBlocks& added, int threads)
    : nodes_(stiffly_joined(pattern, K, added)) {
  if (empty()) return;
  place_.assign(pattern.nodes(), -1);
  for (std::size_t k = 0; k < nodes_.size(); ++k) place_[nodes_[k]] = static_cast<int>(k);

  std::vector<AddedBlock> blocks;
  for (const int node : nodes_)
    for (auto k = pattern.row_start[node]; k < pattern.row_start[node + 1]; ++k)
      if (place_[pattern.column[k]] >= 0) blocks.push_back({node, pattern.column[k], K[k]});
  blocks = free.projected(std::move(blocks));
  for (auto& block : blocks)
    if (block.row == block.column)
      block.value = free.projected_diagonal(block.row, K[pattern.row_start[block.row]]);
  for (const auto& block : added)
    if (place_[block.row] >= 0 && place_[block.column] >= 0) blocks.push_back(block);
  for (auto& block : blocks) {
    block.row = place_[block.row];
    block.column = place_[block.column];
  }
  const AddedBlocks all = summed(std::move(blocks));
  BlockPattern own{{0}, {}};
  Blocks<double> values;
  values.resize(std::ssize(all));
  for (std::size_t k = 0; k < all.size(); ++k) {
    while (own.nodes() < all[k].row) own.row_start.push_back(std::ssize(own.column));
    own.column.push_back(all[k].column);
    values[static_cast<Eigen::Index>(k)] = all[k].value;
  }
  own.row_start.push_back(std::ssize(own.column));
  factor_ = std::make_unique<SparseCholesky<float>>(own, threads);
  // What is not positive definite to round-off is smoothed node by node.
  if (factor_->factorise(values) >= 0) nodes_.clear();
}

void JoinedNodes::solve(const NodeVectors<float>& b, NodeVectors<float>& x) const {
  NodeVectors<float> own(count(), b.columns());
  for (std::size_t k = 0; k < nodes_.size(); ++k)
    for (int c = 0; c < b.columns(); ++c)
      own.at(static_cast<Eigen::Index>(k), c) = b.at(nodes_[k], c);
  x = NodeVectors<float>(count(), b.columns());
  factor_->solve(own, x);
}

}  // namespace crossgrain
