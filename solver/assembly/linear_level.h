// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include "solver/assembly/node_order.h"
#include "solver/blocks/node_vectors.h"

namespace crossgrain {

/// Linear functions on the same tetrahedra: unknowns at the corners only, a mid-side node moves by
/// the mean of its edge's ends. Corners are numbered in the order of their ranks.
class LinearLevel {
 public:
  LinearLevel(const TetrahedronMesh& mesh, const NodeOrder& order, int threads);

  Eigen::Index corners() const { return std::ssize(rank_of_corner_); }
  /// Corner numbers at the ends of the edge of the node at each rank; twice the same at a corner,
  /// twice -1 at a node of no element.
  const std::vector<std::array<int, 2>>& ends() const { return ends_; }
  const std::vector<int>& rank_of_corner() const { return rank_of_corner_; }
  /// 3 x corners [mm].
  const Eigen::Matrix3Xd& positions() const { return positions_; }

  /// Forces at all nodes, gathered at the corners.
  void restrict_to_corners(const NodeVectors<float>& forces, NodeVectors<float>& at_corners) const;
  /// Add the displacement that corners give to all nodes.
  void add_from_corners(const NodeVectors<float>& at_corners, NodeVectors<float>& all) const;

 private:
  int threads_;
  std::vector<std::array<int, 2>> ends_;
  std::vector<int> rank_of_corner_;
  Eigen::Matrix3Xd positions_;
  std::vector<int> middles_start_, middles_;  ///< ranks of the mid-side nodes round each corner
};

}  // namespace crossgrain
