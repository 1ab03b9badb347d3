// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/aggregation/block_table.h"

namespace crossgrain {

/// Points gathered into groups of strongly coupled neighbours.
struct NodeAggregates {
  int count = 0;
  std::vector<int> of_point;  ///< -1: coupled to nothing, as what is held
};

/// A root and all its neighbours where all are still free, then every other point to the aggregate
/// it is coupled to most strongly. In the order of the points: the same on every machine.
/// @param nodes_per_point  consecutive rows of A that belong together: 1, or 2 for six unknowns.
/// @param weakest  a coupling counts if |A_ij|^2 > weakest^2 |A_ii| |A_jj|, norms of points'
/// blocks. Source: P. Vanek, J. Mandel, M. Brezina, Algebraic multigrid by smoothed aggregation for
/// second and fourth order elliptic problems, Computing 56 (1996) 179-196, from memory.
NodeAggregates aggregate_points(const SymmetricRows& A, int nodes_per_point, double weakest);

}  // namespace crossgrain
