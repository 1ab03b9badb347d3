// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/assembly/stiffness_assembly.h"

#include <algorithm>
#include <stdexcept>

#include "solver/assembly/element_batch.h"
#include "solver/assembly/element_pattern.h"
#include "solver/elements/element_at_points.h"
#include "solver/elements/parallel.h"
#include "solver/elements/straight_edges.h"

namespace crossgrain {
namespace {

const TetrahedronMesh& checked(const TetrahedronMesh& mesh) {
  if (mesh.tetrahedron_count() == 0 || !mesh.nodes.allFinite())
    throw std::invalid_argument("the mesh has no elements, or a node that is nowhere");
  if (mesh.tetrahedra.minCoeff() < 0 || mesh.tetrahedra.maxCoeff() >= mesh.node_count())
    throw std::invalid_argument("an element of the mesh names a node that is not there");
  return mesh;
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

  /// @param elements  ascending.
  void add(const std::vector<int>& elements, ElementShape shape) {
    for (const int element : elements) {
      if (assembly_.elements_.ranks.col(element).minCoeff() >= end_) break;
      if (assembly_.places_[element].last_rank < begin_) continue;
      batch_.take(assembly_.elements_.tetrahedron[element]);
      taken_.push_back(element);
      if (batch_.full()) scatter(shape);
    }
    if (!taken_.empty()) scatter(shape);
  }

 private:
  void scatter(ElementShape shape) {
    batch_.integrate(shape);
    for (std::size_t lane = 0; lane < taken_.size(); ++lane) {
      scatter_nodes(taken_[lane], static_cast<int>(lane));
      scatter_corners(taken_[lane], static_cast<int>(lane), shape);
    }
    taken_.clear();
    batch_.clear();
  }

  void scatter_nodes(int element, int lane) {
    const auto ranks = assembly_.elements_.ranks.col(element);
    const Place& place = assembly_.places_[element];
    for (int a = 0, pair = 0; a < 10; ++a)
      for (int b = a; b < 10; ++b, ++pair) {
        const int row = std::min(ranks[a], ranks[b]);
        if (row < begin_ || row >= end_) continue;
        auto block = assembly_.matrix_[place.block[pair]];
        if (ranks[a] <= ranks[b])
          block += batch_.block(pair, lane);
        else
          block += batch_.block(pair, lane).transpose();
      }
  }

  void scatter_corners(int element, int lane, ElementShape shape) {
    const auto ranks = assembly_.elements_.ranks.col(element);
    const Place& place = assembly_.places_[element];
    for (int m = 0, pair = 0; m < 4; ++m)
      for (int n = m; n < 4; ++n, ++pair) {
        // Corners are numbered as they are ranked, and whoever owns the row among all nodes owns it
        // among the corners.
        const int row = std::min(ranks[m], ranks[n]);
        if (row < begin_ || row >= end_) continue;
        const Eigen::Matrix3d value = batch_.corner_block(m, n, lane, shape);
        auto block = assembly_.corner_matrix_[place.corner_block[pair]];
        if (ranks[m] <= ranks[n])
          block += value;
        else
          block += value.transpose();
      }
  }

  StiffnessAssembly& assembly_;
  int begin_, end_;
  ElementBatch batch_;
  std::vector<int> taken_;
};

StiffnessAssembly::StiffnessAssembly(const TetrahedronMesh& mesh, const TetrahedronRule& rule,
                                     int threads)
    : mesh_(checked(mesh)),
      rule_(rule),
      threads_(thread_count(threads)),
      order_(breadth_first_order(mesh)),
      linear_level_(mesh, order_, threads_),
      elements_(ranked_elements(mesh, order_, threads_)),
      straight_elements_(mesh, elements_, threads_),
      pattern_(node_pattern(elements_, mesh.node_count(), threads_)),
      corner_pattern_(crossgrain::corner_pattern(linear_level_)) {
  place_elements();
  matrix_.resize(pattern_.size());
  corner_matrix_.resize(corner_pattern_.size());
}

void StiffnessAssembly::place_elements() {
  places_.resize(elements_.count());
  std::vector<char> straight(places_.size());
  in_parallel(elements_.count(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto e = begin; e < end; ++e) {
      straight[e] = has_straight_edges(mesh_, elements_.tetrahedron[e]) ? 1 : 0;
      Place& place = places_[e];
      const auto ranks = elements_.ranks.col(e);
      place.last_rank = ranks.maxCoeff();
      for (int a = 0, pair = 0; a < 10; ++a)
        for (int b = a; b < 10; ++b, ++pair)
          place.block[pair] = static_cast<int>(
              pattern_.find(std::min(ranks[a], ranks[b]), std::max(ranks[a], ranks[b])));
      for (int m = 0, pair = 0; m < 4; ++m)
        for (int n = m; n < 4; ++n, ++pair) {
          const auto [low, high] =
              std::minmax(linear_level_.ends()[ranks[m]][0], linear_level_.ends()[ranks[n]][0]);
          place.corner_block[pair] = static_cast<int>(corner_pattern_.find(low, high));
        }
    }
  });
  for (int e = 0; e < static_cast<int>(elements_.count()); ++e)
    (straight[e] ? straight_ : curved_).push_back(e);
}

void StiffnessAssembly::assemble(const MaterialField& field) {
  require_fits(field, mesh_, rule_.size());
  const auto bounds = row_ranges(pattern_, threads_);
  straight_elements_.set_material(field);
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
