// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/linear_system/stiffness_assembly.h"

#include <algorithm>
#include <stdexcept>

#include "solver/elements/element_at_points.h"
#include "solver/elements/parallel.h"
#include "solver/linear_system/element_batch.h"
#include "solver/linear_system/element_pattern.h"

namespace crossgrain {
namespace {

const TetrahedronMesh& checked(const TetrahedronMesh& mesh) {
  if (mesh.tetrahedron_count() == 0 || !mesh.nodes.allFinite())
    throw std::invalid_argument("the mesh has no elements, or a node that is nowhere");
  if (mesh.tetrahedra.minCoeff() < 0 || mesh.tetrahedra.maxCoeff() >= mesh.node_count())
    throw std::invalid_argument("an element of the mesh names a node that is not there");
  return mesh;
}

/// All mid-side nodes in the middle of their edges, to round-off.
bool is_straight(const TetrahedronMesh& mesh, Eigen::Index tetrahedron) {
  constexpr double round_off = 1e-11;
  const auto nodes = mesh.tetrahedra.col(tetrahedron);
  for (int e = 0; e < 6; ++e) {
    const auto& a = mesh.nodes.col(nodes[edges_of_tetrahedron[e][0]]);
    const auto& b = mesh.nodes.col(nodes[edges_of_tetrahedron[e][1]]);
    const double bow = (mesh.nodes.col(nodes[4 + e]) - 0.5 * (a + b)).squaredNorm();
    if (bow > round_off * round_off * (b - a).squaredNorm()) return false;
  }
  return true;
}

/// Rows by number of blocks, one range a thread.
std::vector<Eigen::Index> row_ranges(const BlockPattern& pattern, int ranges) {
  std::vector<Eigen::Index> bounds{0};
  for (int r = 1; r < ranges; ++r)
    bounds.push_back(std::lower_bound(pattern.row_start.begin(), pattern.row_start.end() - 1,
                                      pattern.size() * r / ranges) -
                     pattern.row_start.begin());
  bounds.push_back(pattern.nodes());
  return bounds;
}

}  // namespace

/// Adds to a range of rows what the elements that touch it give; nobody else writes there, and
/// every row takes its elements in the same order whatever the ranges are.
class StiffnessAssembly::Worker {
 public:
  Worker(StiffnessAssembly& assembly, const MaterialField& field, Eigen::Index begin,
         Eigen::Index end)
      : assembly_(assembly),
        begin_(static_cast<int>(begin)),
        end_(static_cast<int>(end)),
        batch_(assembly.mesh_, field, assembly.rule_) {}

  void add(const std::vector<Placed>& elements, ElementShape shape) {
    for (const Placed& element : elements) {
      if (element.first_rank >= end_) break;
      if (element.last_rank < begin_) continue;
      batch_.take(element.tetrahedron);
      taken_.push_back(&element);
      if (batch_.full()) scatter(shape);
    }
    if (!taken_.empty()) scatter(shape);
  }

 private:
  void scatter(ElementShape shape) {
    batch_.integrate(shape);
    for (std::size_t lane = 0; lane < taken_.size(); ++lane) {
      scatter_nodes(*taken_[lane], static_cast<int>(lane));
      scatter_corners(*taken_[lane], static_cast<int>(lane), shape);
    }
    taken_.clear();
    batch_.clear();
  }

  void scatter_nodes(const Placed& element, int lane) {
    int ranks[10];
    for (int a = 0; a < 10; ++a)
      ranks[a] = assembly_.order_.rank[assembly_.mesh_.tetrahedra(a, element.tetrahedron)];
    for (int a = 0, pair = 0; a < 10; ++a)
      for (int b = a; b < 10; ++b, ++pair) {
        const int row = std::min(ranks[a], ranks[b]);
        if (row < begin_ || row >= end_) continue;
        auto block = assembly_.matrix_[element.block[pair]];
        if (ranks[a] <= ranks[b])
          block += batch_.block(pair, lane);
        else
          block += batch_.block(pair, lane).transpose();
      }
  }

  void scatter_corners(const Placed& element, int lane, ElementShape shape) {
    int corners[4];
    for (int m = 0; m < 4; ++m) {
      const int rank = assembly_.order_.rank[assembly_.mesh_.tetrahedra(m, element.tetrahedron)];
      corners[m] = assembly_.linear_level_.ends()[rank][0];
    }
    for (int m = 0, pair = 0; m < 4; ++m)
      for (int n = m; n < 4; ++n, ++pair) {
        // Whoever owns the row among all nodes owns it among the corners.
        const int row = assembly_.linear_level_.rank_of_corner()[std::min(corners[m], corners[n])];
        if (row < begin_ || row >= end_) continue;
        const Eigen::Matrix3d value = batch_.corner_block(m, n, lane, shape);
        auto block = assembly_.corner_matrix_[element.corner_block[pair]];
        if (corners[m] <= corners[n])
          block += value;
        else
          block += value.transpose();
      }
  }

  StiffnessAssembly& assembly_;
  int begin_, end_;
  ElementBatch batch_;
  std::vector<const Placed*> taken_;
};

StiffnessAssembly::StiffnessAssembly(const TetrahedronMesh& mesh, const TetrahedronRule& rule,
                                     int threads)
    : mesh_(checked(mesh)),
      rule_(rule),
      threads_(thread_count(threads)),
      order_(breadth_first_order(mesh)),
      linear_level_(mesh, order_, threads_),
      pattern_(node_pattern(mesh, order_, threads_)),
      corner_pattern_(crossgrain::corner_pattern(linear_level_)) {
  place_elements();
  matrix_.resize(pattern_.size());
  corner_matrix_.resize(corner_pattern_.size());
}

void StiffnessAssembly::place_elements() {
  std::vector<Placed> all(mesh_.tetrahedron_count());
  std::vector<char> straight(all.size());
  in_parallel(std::ssize(all), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto t = begin; t < end; ++t) {
      Placed& element = all[t];
      straight[t] = is_straight(mesh_, t) ? 1 : 0;
      element.tetrahedron = static_cast<int>(t);
      int ranks[10];
      for (int a = 0; a < 10; ++a) ranks[a] = order_.rank[mesh_.tetrahedra(a, t)];
      element.first_rank = *std::min_element(ranks, ranks + 10);
      element.last_rank = *std::max_element(ranks, ranks + 10);
      for (int a = 0, pair = 0; a < 10; ++a)
        for (int b = a; b < 10; ++b, ++pair)
          element.block[pair] = static_cast<int>(
              pattern_.find(std::min(ranks[a], ranks[b]), std::max(ranks[a], ranks[b])));
      for (int m = 0, pair = 0; m < 4; ++m)
        for (int n = m; n < 4; ++n, ++pair) {
          const auto [low, high] =
              std::minmax(linear_level_.ends()[ranks[m]][0], linear_level_.ends()[ranks[n]][0]);
          element.corner_block[pair] = static_cast<int>(corner_pattern_.find(low, high));
        }
    }
  });
  std::vector<int> by_first_rank(all.size());
  for (std::size_t t = 0; t < all.size(); ++t) by_first_rank[t] = static_cast<int>(t);
  std::sort(by_first_rank.begin(), by_first_rank.end(), [&](int a, int b) {
    return std::pair(all[a].first_rank, a) < std::pair(all[b].first_rank, b);
  });
  for (const int t : by_first_rank) (straight[t] ? straight_ : curved_).push_back(all[t]);
}

void StiffnessAssembly::assemble(const MaterialField& field) {
  require_fits(field, mesh_, rule_.size());
  const auto bounds = row_ranges(pattern_, threads_);
  matrix_.set_zero();
  corner_matrix_.set_zero();
  const bool in_batches = field.one_frame_per_element();
  in_parallel(threads_, threads_, [&](Eigen::Index first, Eigen::Index last) {
    for (auto range = first; range < last; ++range) {
      Worker worker(*this, field, bounds[range], bounds[range + 1]);
      worker.add(straight_, in_batches ? ElementShape::straight : ElementShape::point_by_point);
      worker.add(curved_, in_batches ? ElementShape::curved : ElementShape::point_by_point);
    }
  });
}

}  // namespace crossgrain
