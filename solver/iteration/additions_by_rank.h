// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/blocks/added_rows.h"
#include "solver/iteration/additions.h"

namespace crossgrain {

/// Additions as the linear system takes them, nodes by rank.
struct AdditionsByRank {
  std::vector<StiffnessAdditions::Spring> springs;
  AddedRows<double> rows;  ///< of the blocks
  /// What stands for all of them in a preconditioner under `WithSprings`: the blocks, and of each
  /// spring k (v . u)^2 a hundredth of the stiffness between its nodes and the ground that it
  /// cannot exceed, k s |v_i| (n_i . u_i)^2 with s the sum of the |v_i| and v_i = |v_i| n_i (Cauchy
  /// and Schwarz).
  AddedBlocks preconditioned;
};

/// @param additions  nodes by number in the mesh.
AdditionsByRank additions_by_rank(StiffnessAdditions additions, const std::vector<int>& rank,
                                  int threads);

}  // namespace crossgrain
