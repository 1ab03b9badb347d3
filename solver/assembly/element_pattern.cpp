// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/assembly/element_pattern.h"

#include <algorithm>
#include <numeric>

#include "solver/assembly/node_adjacency.h"
#include "solver/elements/parallel.h"

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

RankedElements ranked_elements(const TetrahedronMesh& mesh, const NodeOrder& order, int threads) {
  const auto count = mesh.tetrahedron_count();
  std::vector<int> least(count);
  in_parallel(count, threads, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto t = begin; t < end; ++t) {
      least[t] = order.rank[mesh.tetrahedra(0, t)];
      for (int a = 1; a < 10; ++a) least[t] = std::min(least[t], order.rank[mesh.tetrahedra(a, t)]);
    }
  });
  std::vector<int> next(mesh.node_count() + 1, 0);
  for (const int rank : least) ++next[rank + 1];
  std::partial_sum(next.begin(), next.end(), next.begin());
  RankedElements elements;
  elements.tetrahedron.resize(count);
  for (int t = 0; t < static_cast<int>(count); ++t) elements.tetrahedron[next[least[t]]++] = t;
  elements.ranks.resize(10, count);
  in_parallel(count, threads, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto e = begin; e < end; ++e)
      for (int a = 0; a < 10; ++a)
        elements.ranks(a, e) = order.rank[mesh.tetrahedra(a, elements.tetrahedron[e])];
  });
  return elements;
}

BlockPattern node_pattern(const RankedElements& elements, Eigen::Index nodes, int threads) {
  const NodeAdjacency adjacency(elements.ranks, nodes);
  const Eigen::Index ranges = thread_count(threads);
  std::vector<std::vector<int>> columns_of_range(ranges);
  std::vector<int> row_length(nodes);
  in_parallel(ranges, threads, [&](Eigen::Index first, Eigen::Index last) {
    for (auto range = first; range < last; ++range) {
      auto& columns = columns_of_range[range];
      std::vector<int> seen_by(nodes, -1);
      const auto end = static_cast<int>(nodes * (range + 1) / ranges);
      for (auto i = static_cast<int>(nodes * range / ranges); i < end; ++i) {
        const auto row = std::ssize(columns);
        columns.push_back(i);
        for (const auto& at : adjacency.at(i))
          for (const int j : elements.ranks.col(at.tetrahedron)) {
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
