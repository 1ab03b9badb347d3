// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "solver/assembly/linear_level.h"
#include "solver/blocks/free_directions.h"
#include "solver/multigrid/corner_solver.h"

namespace crossgrain {

enum class CornerMethod {
  automatic,    ///< a factor while it is cheap
  factor,       ///< sparse Cholesky
  aggregation,  ///< multigrid by smoothed aggregation
};

/// The way to solve on the corners. Whether a factor is cheap enough is told from the pattern.
/// @param pattern, free  of the corners, kept by reference.
/// @param blocks_of_all  3x3 blocks in the upper half of the whole matrix: the work of an
/// iteration.
std::unique_ptr<CornerSolver> make_corner_solver(CornerMethod method, const BlockPattern& pattern,
                                                 Eigen::Index blocks_of_all,
                                                 const LinearLevel& level,
                                                 const FreeDirections& free, int threads);

}  // namespace crossgrain
