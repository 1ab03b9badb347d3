// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include "solver/assembly/element_pattern.h"
#include "solver/assembly/linear_level.h"
#include "solver/assembly/node_order.h"
#include "solver/assembly/straight_elements.h"
#include "solver/blocks/block_matrix.h"
#include "solver/elements/material_field.h"
#include "solver/elements/quadrature.h"

namespace crossgrain {

/// Assembles the stiffness of one mesh for one material field after another, on all nodes and on
/// the corners alone. Patterns, and the place of every element's blocks in them, are worked out
/// once.
class StiffnessAssembly {
 public:
  /// @param mesh  kept by reference.  @param threads  0: all cores.
  /// @throws std::invalid_argument for a node number out of range or a node that is nowhere.
  StiffnessAssembly(const TetrahedronMesh& mesh, const TetrahedronRule& rule, int threads);

  /// The same to the last bit for any number of threads.
  /// @throws std::invalid_argument for an inverted element.
  void assemble(const MaterialField& field);

  const NodeOrder& order() const { return order_; }
  const LinearLevel& linear_level() const { return linear_level_; }
  const BlockPattern& pattern() const { return pattern_; }
  const Blocks<double>& matrix() const { return matrix_; }
  /// The same stiffness as a product without a matrix.
  const StraightElements& straight_elements() const { return straight_elements_; }
  const BlockPattern& corner_pattern() const { return corner_pattern_; }
  const Blocks<double>& corner_matrix() const { return corner_matrix_; }

 private:
  class Worker;
  /// Where an element's blocks go.
  struct Place {
    int last_rank;                     ///< greatest of its nodes
    std::array<int, 55> block;         ///< of each pair of nodes, in the pattern
    std::array<int, 10> corner_block;  ///< of each pair of corners, in the corner pattern
  };

  void place_elements();

  const TetrahedronMesh& mesh_;
  const TetrahedronRule& rule_;
  int threads_;
  NodeOrder order_;
  LinearLevel linear_level_;
  RankedElements elements_;
  StraightElements straight_elements_;
  BlockPattern pattern_, corner_pattern_;
  std::vector<Place> places_;           ///< of each of the ranked elements
  std::vector<int> straight_, curved_;  ///< of the ranked elements
  Blocks<double> matrix_, corner_matrix_;
};

}  // namespace crossgrain
