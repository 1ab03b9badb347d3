// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/linear_system/corner_choice.h"

#include "solver/linear_system/aggregation_multigrid.h"
#include "solver/linear_system/corner_factor.h"

namespace crossgrain {
namespace {

// In double precision, as it is made; half of that stays. The whole solve of a part with a million
// unknowns takes as much again, so that this is what a machine of 8 GB has to spare.
constexpr double largest_factor = 2.0 * 1024 * 1024 * 1024;
// More corners than this do not fit into it even as a sheet of one layer of elements, the shape
// with the smallest factor (31/4 n log2 n numbers on n points, nested dissection): no need for the
// analysis, which takes seconds.
constexpr Eigen::Index most_corners = 400'000;

}  // namespace

std::unique_ptr<CornerSolver> make_corner_solver(CornerMethod method, const BlockPattern& pattern,
                                                 const LinearLevel& level,
                                                 const FreeDirections& free, int threads) {
  if (method == CornerMethod::factor ||
      (method == CornerMethod::automatic && pattern.nodes() <= most_corners)) {
    auto analysed = std::make_unique<SparseCholesky>(pattern);
    if (method == CornerMethod::factor || analysed->bytes_of_factor() <= largest_factor)
      return std::make_unique<CornerFactor>(std::move(analysed));
  }
  return std::make_unique<AggregationMultigrid>(pattern, free, level.positions(), threads);
}

}  // namespace crossgrain
