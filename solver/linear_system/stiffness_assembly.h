// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/elements/element_stiffness.h"
#include "solver/elements/material_field.h"
#include "solver/elements/quadrature.h"
#include "solver/linear_system/block_matrix.h"
#include "solver/linear_system/node_adjacency.h"

namespace crossgrain {

/// Assembles the stiffness of one mesh for one material field after another. The pattern and the
/// gradient products of every element are worked out once.
class StiffnessAssembly {
 public:
  /// @param mesh  kept by reference.  @param threads  0: all cores.
  /// @throws std::invalid_argument for an inverted element or a node number out of range.
  StiffnessAssembly(const TetrahedronMesh& mesh, const TetrahedronRule& rule, int threads);

  /// The same to the last bit for any number of threads.
  void assemble(const MaterialField& field);

  const BlockMatrix& matrix() const { return matrix_; }

 private:
  void lay_out_pattern();
  void integrate_geometry();
  std::vector<PairBlocks> element_stiffness(const MaterialField& field) const;
  void gather(const std::vector<PairBlocks>& elements);

  const TetrahedronMesh& mesh_;
  const TetrahedronRule& rule_;
  int threads_;
  NodeAdjacency adjacency_;
  std::vector<PairBlocks> gradient_products_;
  BlockMatrix matrix_;
};

}  // namespace crossgrain
