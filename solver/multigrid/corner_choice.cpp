// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/multigrid/corner_choice.h"

#include "solver/multigrid/aggregation_multigrid.h"
#include "solver/multigrid/corner_factor.h"

namespace crossgrain {
namespace {

// Operations of a factor for every block of the whole matrix, in which iterations are counted.
// Measured: at 1000 to 2100 a factor takes 0.9 of aggregation's time, at 2700 to 3200 (shells of
// one layer, a bowl of two) 1 to 1.1, at 5300 (a shell of two layers) 0.93, from 6400 to 17300 1.2
// to 1.6.
constexpr double most_operations_per_block = 3000.0;
constexpr double largest_factor = 1.0 * 1024 * 1024 * 1024;

/// @return nothing where aggregation is faster or the factor too large.
std::unique_ptr<CornerSolver> factor_while_cheap(const BlockPattern& pattern,
                                                 Eigen::Index blocks_of_all, int threads) {
  const double most = most_operations_per_block * static_cast<double>(blocks_of_all);
  if (expected_operations(pattern) > most) return nullptr;
  auto analysed = std::make_unique<SparseCholesky<float>>(pattern, threads);
  if (analysed->operations() > most || analysed->bytes_of_factor() > largest_factor) return nullptr;
  return std::make_unique<CornerFactor>(std::move(analysed));
}

}  // namespace

std::unique_ptr<CornerSolver> make_corner_solver(CornerMethod method, const BlockPattern& pattern,
                                                 Eigen::Index blocks_of_all,
                                                 const LinearLevel& level,
                                                 const FreeDirections& free, int threads) {
  if (method == CornerMethod::factor)
    return std::make_unique<CornerFactor>(
        std::make_unique<SparseCholesky<float>>(pattern, threads));
  if (method == CornerMethod::automatic)
    if (auto factor = factor_while_cheap(pattern, blocks_of_all, threads)) return factor;
  return std::make_unique<AggregationMultigrid>(pattern, free, level.positions(), threads);
}

}  // namespace crossgrain
