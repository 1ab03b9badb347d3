// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "solver/linear_system/corner_solver.h"
#include "solver/linear_system/free_directions.h"
#include "solver/linear_system/linear_level.h"

namespace crossgrain {

enum class CornerMethod {
  automatic,    ///< a factor while it is small enough
  factor,       ///< sparse Cholesky
  aggregation,  ///< multigrid by smoothed aggregation
};

/// The way to solve on the corners. The factor is analysed here, unless its size can be told from
/// the number of corners alone.
/// @param pattern, free  of the corners, kept by reference.
std::unique_ptr<CornerSolver> make_corner_solver(CornerMethod method, const BlockPattern& pattern,
                                                 const LinearLevel& level,
                                                 const FreeDirections& free, int threads);

}  // namespace crossgrain
