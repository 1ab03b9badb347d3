// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/assembly/node_order.h"

#include <algorithm>
#include <numeric>
#include <sstream>
#include <stdexcept>

#include "solver/elements/shape_functions.h"

namespace crossgrain {
namespace {

using Ends = std::vector<std::array<int, 2>>;

/// Corners joined by an edge, compressed.
struct CornerGraph {
  std::vector<int> start, neighbour;

  explicit CornerGraph(const Ends& ends) : start(ends.size() + 1, 0) {
    for (const auto& [a, b] : ends)
      if (a != b) ++start[a + 1], ++start[b + 1];
    std::partial_sum(start.begin(), start.end(), start.begin());
    neighbour.resize(start.back());
    std::vector<int> next(start.begin(), start.end() - 1);
    for (const auto& [a, b] : ends)
      if (a != b) neighbour[next[a]++] = b, neighbour[next[b]++] = a;
  }
};

/// Append what can be reached from a corner, level by level.
void append_levels(const CornerGraph& graph, int from, std::vector<int>& visit, int mark,
                   std::vector<int>& order) {
  std::size_t next = order.size();
  order.push_back(from);
  visit[from] = mark;
  for (; next < order.size(); ++next)
    for (int k = graph.start[order[next]]; k < graph.start[order[next] + 1]; ++k) {
      const int corner = graph.neighbour[k];
      if (visit[corner] == mark) continue;
      visit[corner] = mark;
      order.push_back(corner);
    }
}

std::vector<int> ordered_corners(const Ends& ends) {
  const CornerGraph graph(ends);
  std::vector<int> order, visit(ends.size(), 0);
  for (int i = 0; i < static_cast<int>(ends.size()); ++i) {
    if (visit[i] != 0 || ends[i][0] != i) continue;
    // From the last one reached from the last one reached: an end of the group, nearly.
    std::vector<int> trial;
    append_levels(graph, i, visit, 1, trial);
    const int far = trial.back();
    trial.clear();
    append_levels(graph, far, visit, 2, trial);
    append_levels(graph, trial.back(), visit, 3, order);
  }
  return order;
}

[[noreturn]] void refuse_shared_node(const TetrahedronMesh& mesh, int node) {
  std::ostringstream message;
  message << "the mesh does not fit together at ("
          << mesh.nodes.col(node).transpose().format(Eigen::IOFormat(6, Eigen::DontAlignCols, ", "))
          << ") mm: the node there is the middle of two edges, or a corner and a middle at once";
  throw std::invalid_argument(message.str());
}

}  // namespace

Ends edge_ends(const TetrahedronMesh& mesh) {
  Ends ends(mesh.node_count(), {-1, -1});
  const auto put = [&](int node, int a, int b) {
    const std::array<int, 2> pair{std::min(a, b), std::max(a, b)};
    if (ends[node][0] >= 0 && ends[node] != pair) refuse_shared_node(mesh, node);
    ends[node] = pair;
  };
  for (const auto& nodes : mesh.tetrahedra.colwise()) {
    for (int a = 0; a < 4; ++a) put(nodes[a], nodes[a], nodes[a]);
    for (int e = 0; e < 6; ++e)
      put(nodes[4 + e], nodes[edges_of_tetrahedron[e][0]], nodes[edges_of_tetrahedron[e][1]]);
  }
  return ends;
}

NodeOrder breadth_first_order(const TetrahedronMesh& mesh) {
  const Ends ends = edge_ends(mesh);
  const std::vector<int> corners = ordered_corners(ends);
  std::vector<int> place(ends.size(), static_cast<int>(ends.size()));
  for (std::size_t k = 0; k < corners.size(); ++k) place[corners[k]] = static_cast<int>(k);
  // Sorted by the later corner, a corner before the middles behind it, those by the earlier corner.
  std::vector<std::array<int, 3>> keys;
  for (int i = 0; i < static_cast<int>(ends.size()); ++i) {
    if (ends[i][0] < 0) {
      keys.push_back({static_cast<int>(ends.size()), 0, i});
      continue;
    }
    const auto [low, high] = std::minmax(place[ends[i][0]], place[ends[i][1]]);
    keys.push_back({high, low == high ? -1 : low, i});
  }
  std::sort(keys.begin(), keys.end());
  NodeOrder order{std::vector<int>(ends.size()), {}};
  for (const auto& key : keys) {
    order.rank[key[2]] = static_cast<int>(order.node.size());
    order.node.push_back(key[2]);
  }
  return order;
}

}  // namespace crossgrain
