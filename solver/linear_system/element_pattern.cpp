// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/linear_system/element_pattern.h"

#include <algorithm>

#include "solver/elements/parallel.h"
#include "solver/linear_system/node_adjacency.h"

namespace crossgrain {
namespace {

/// Compressed rows out of rows that came in order, one list for each range of rows.
BlockPattern joined(const std::vector<std::vector<int>>& columns_of_range,
                    const std::vector<int>& row_length) {
  BlockPattern pattern{{0}, {}};
  pattern.row_start.reserve(row_length.size() + 1);
  for (const int length : row_length)
    pattern.row_start.push_back(pattern.row_start.back() + length);
  pattern.column.reserve(pattern.row_start.back());
  for (const auto& columns : columns_of_range)
    pattern.column.insert(pattern.column.end(), columns.begin(), columns.end());
  return pattern;
}

}  // namespace

BlockPattern node_pattern(const TetrahedronMesh& mesh, const NodeOrder& order, int threads) {
  const NodeAdjacency adjacency(mesh);
  const Eigen::Index ranges = thread_count(threads);
  std::vector<std::vector<int>> columns_of_range(ranges);
  std::vector<int> row_length(mesh.node_count());
  in_parallel(ranges, threads, [&](Eigen::Index first, Eigen::Index last) {
    for (auto range = first; range < last; ++range) {
      auto& columns = columns_of_range[range];
      std::vector<int> seen_by(mesh.node_count(), -1);
      const auto begin = mesh.node_count() * range / ranges;
      const auto end = mesh.node_count() * (range + 1) / ranges;
      for (auto i = static_cast<int>(begin); i < static_cast<int>(end); ++i) {
        const auto row = std::ssize(columns);
        columns.push_back(i);
        for (const auto& [tetrahedron, local] : adjacency.at(order.node[i]))
          for (const int node : mesh.tetrahedra.col(tetrahedron)) {
            const int j = order.rank[node];
            if (j <= i || seen_by[j] == i) continue;
            seen_by[j] = i;
            columns.push_back(j);
          }
        std::sort(columns.begin() + row, columns.end());
        row_length[i] = static_cast<int>(std::ssize(columns) - row);
      }
    }
  });
  return joined(columns_of_range, row_length);
}

BlockPattern corner_pattern(const LinearLevel& level) {
  std::vector<std::vector<int>> rows(level.corners());
  for (const auto& [a, b] : level.ends())
    if (a >= 0) rows[std::min(a, b)].push_back(std::max(a, b));
  std::vector<int> row_length;
  for (auto& row : rows) {
    std::sort(row.begin(), row.end());
    row_length.push_back(static_cast<int>(row.size()));
  }
  return joined(rows, row_length);
}

}  // namespace crossgrain
