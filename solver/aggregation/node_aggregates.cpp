// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/aggregation/node_aggregates.h"

#include <cmath>
#include <span>

namespace crossgrain {
namespace {

/// Points and what they are coupled to more than weakly.
class StrengthGraph {
 public:
  struct Coupling {
    int point;
    double strength;  ///< |A_ij|^2 / (|A_ii| |A_jj|)
  };

  StrengthGraph(const SymmetricRows& A, int nodes_per_point, double weakest) {
    const auto points = static_cast<int>(A.rows()) / nodes_per_point;
    std::vector<double> squared(points, 0.0), own(points);  // squared norms of one row of points
    std::vector<int> met;
    std::vector<std::int64_t> start{0};
    std::vector<Coupling> all;
    for (int i = 0; i < points; ++i) {
      met.clear();
      for (int row = nodes_per_point * i; row < nodes_per_point * (i + 1); ++row)
        A.for_each_in_row(row, [&](int column, const auto& block) {
          const int j = column / nodes_per_point;
          const double here = block.squaredNorm();
          if (here > 0.0 && squared[j] == 0.0) met.push_back(j);
          squared[j] += here;
        });
      own[i] = std::sqrt(squared[i]);
      for (const int j : met) {
        if (j != i) all.push_back({j, squared[j]});
        squared[j] = 0.0;
      }
      start.push_back(std::ssize(all));
    }
    for (int i = 0; i < points; ++i) {
      for (auto k = start[i]; k < start[i + 1]; ++k) {
        const double strength = all[k].strength / (own[i] * own[all[k].point]);
        if (strength > weakest * weakest) couplings_.push_back({all[k].point, strength});
      }
      start_.push_back(std::ssize(couplings_));
    }
  }

  int points() const { return static_cast<int>(start_.size()) - 1; }
  std::span<const Coupling> at(int point) const {
    return {couplings_.data() + start_[point], couplings_.data() + start_[point + 1]};
  }

 private:
  std::vector<std::int64_t> start_{0};
  std::vector<Coupling> couplings_;
};

void gather_whole_neighbourhoods(const StrengthGraph& graph, NodeAggregates& aggregates) {
  auto& of = aggregates.of_point;
  for (int i = 0; i < graph.points(); ++i) {
    const auto neighbours = graph.at(i);
    bool free = of[i] < 0 && !neighbours.empty();
    for (const auto& neighbour : neighbours) free = free && of[neighbour.point] < 0;
    if (!free) continue;
    of[i] = aggregates.count;
    for (const auto& neighbour : neighbours) of[neighbour.point] = aggregates.count;
    ++aggregates.count;
  }
}

void join_strongest(const StrengthGraph& graph, NodeAggregates& aggregates) {
  // From what stood before, or chains of points would grow out of one aggregate.
  const auto before = aggregates.of_point;
  for (int i = 0; i < graph.points(); ++i) {
    if (before[i] >= 0) continue;
    double strongest = 0.0;
    for (const auto& [point, strength] : graph.at(i))
      if (before[point] >= 0 && strength > strongest) {
        strongest = strength;
        aggregates.of_point[i] = before[point];
      }
  }
}

void gather_rest(const StrengthGraph& graph, NodeAggregates& aggregates) {
  auto& of = aggregates.of_point;
  for (int i = 0; i < graph.points(); ++i) {
    if (of[i] >= 0 || graph.at(i).empty()) continue;
    of[i] = aggregates.count;
    for (const auto& neighbour : graph.at(i))
      if (of[neighbour.point] < 0) of[neighbour.point] = aggregates.count;
    ++aggregates.count;
  }
}

}  // namespace

NodeAggregates aggregate_points(const SymmetricRows& A, int nodes_per_point, double weakest) {
  const StrengthGraph graph(A, nodes_per_point, weakest);
  NodeAggregates aggregates{0, std::vector<int>(graph.points(), -1)};
  gather_whole_neighbourhoods(graph, aggregates);
  join_strongest(graph, aggregates);
  gather_rest(graph, aggregates);
  return aggregates;
}

}  // namespace crossgrain
