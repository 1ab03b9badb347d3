// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/blocks/added_blocks.h"

#include <algorithm>
#include <tuple>

namespace crossgrain {

AddedBlocks summed(std::vector<AddedBlock> blocks) {
  for (auto& [row, column, value] : blocks) {
    if (row <= column) continue;
    std::swap(row, column);
    value.transposeInPlace();
  }
  const auto place = [](const AddedBlock& block) { return std::tie(block.row, block.column); };
  // Stable: blocks at one place are summed in the order in which they came.
  std::stable_sort(blocks.begin(), blocks.end(),
                   [&](const auto& a, const auto& b) { return place(a) < place(b); });
  AddedBlocks result;
  for (const auto& block : blocks) {
    if (!result.empty() && place(result.back()) == place(block))
      result.back().value += block.value;
    else
      result.push_back(block);
  }
  return result;
}

bool covers(const BlockPattern& pattern, const AddedBlocks& added) {
  return std::all_of(added.begin(), added.end(), [&](const AddedBlock& block) {
    return pattern.find(block.row, block.column) >= 0;
  });
}

BlockPattern extended(const BlockPattern& pattern, const AddedBlocks& added) {
  BlockPattern result{{0}, {}};
  result.row_start.reserve(pattern.row_start.size());
  result.column.reserve(pattern.column.size() + added.size());
  std::vector<int> more;
  auto next = added.begin();
  for (int row = 0; row < static_cast<int>(pattern.nodes()); ++row) {
    more.clear();
    for (; next != added.end() && next->row == row; ++next) more.push_back(next->column);
    std::set_union(pattern.column.begin() + pattern.row_start[row],
                   pattern.column.begin() + pattern.row_start[row + 1], more.begin(), more.end(),
                   std::back_inserter(result.column));
    result.row_start.push_back(std::ssize(result.column));
  }
  return result;
}

void add(const BlockPattern& pattern, const Blocks<double>& A, const AddedBlocks& added,
         const BlockPattern& of_sum, Blocks<double>& sum) {
  sum.resize(of_sum.size());
  sum.set_zero();
  for (Eigen::Index row = 0; row < pattern.nodes(); ++row) {
    auto to = of_sum.row_start[row];
    for (auto k = pattern.row_start[row]; k < pattern.row_start[row + 1]; ++k) {
      while (of_sum.column[to] != pattern.column[k]) ++to;
      sum[to] = A[k];
    }
  }
  for (const auto& [row, column, value] : added) sum[of_sum.find(row, column)] += value;
}

}  // namespace crossgrain
