// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/multigrid/aggregation_multigrid.h"

#include "solver/aggregation/galerkin.h"
#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

// Measured on a pipe of 0.3 million unknowns: a degree of 2 takes a tenth more iterations, one of 4
// saves one of twenty.
constexpr int smoothing_degree = 3;
// Halved from level to level, as couplings reach farther. On a thin shell 0.02 throughout takes 34
// iterations for 28; on a thick pipe 0.15 takes 116 for 20.
constexpr double weakest_coupling = 0.08;
// The usual damping of the prolongator, over the largest eigenvalue; 1 takes a quarter more
// iterations.
constexpr double damping = 4.0 / 3.0;
// Factorised in a few hundredths of a second, even where all nodes are neighbours.
constexpr Eigen::Index largest_coarsest = 700;

}  // namespace

struct AggregationMultigrid::Level {
  BlockPattern pattern;
  Blocks<float> A;
  BlockProduct product;
  StoredOperator stored;
  ChebyshevSmoother smoother;
  std::optional<LevelTransfer> transfer;  ///< to the next coarser level

  Level(BlockPattern given, const Blocks<double>& values, int threads)
      : pattern(std::move(given)),
        product(pattern, threads),
        stored(pattern, A, product),
        smoother(smoothing_degree, threads) {
    A.resize(values.size());
    for (Eigen::Index k = 0; k < A.size(); ++k) A[k] = values[k].cast<float>();
    smoother.set_operator(stored);
  }
};

AggregationMultigrid::AggregationMultigrid(const BlockPattern& pattern, const FreeDirections& free,
                                           Eigen::Matrix3Xd positions, int threads)
    : pattern_(pattern), free_(free), positions_(std::move(positions)), threads_(threads) {}

AggregationMultigrid::~AggregationMultigrid() = default;

std::int64_t AggregationMultigrid::set_matrix(const Blocks<double>& finest) {
  levels_.clear();
  coarsest_.reset();
  if (const auto bad = indefinite_diagonal(pattern_, finest); bad >= 0) return bad;
  RigidPoints points = rigid_corners(positions_, free_);
  GalerkinMatrix coarse;
  const BlockPattern* pattern = &pattern_;
  const Blocks<double>* A = &finest;
  for (double weakest = weakest_coupling; pattern->nodes() > largest_coarsest; weakest /= 2) {
    const SymmetricRows rows(*pattern, *A);
    levels_.push_back(std::make_unique<Level>(*pattern, *A, threads_));
    auto& level = *levels_.back();
    auto [coarse_points, tentative] =
        coarsened(points, aggregate_points(rows, points.nodes_per_point, weakest));
    const auto P =
        smoothed(tentative, rows, damping / level.smoother.largest_eigenvalue(), threads_);
    level.transfer.emplace(P, threads_);
    if (P.columns == 0) return -1;
    coarse = galerkin_matrix(P, rows, threads_);
    pattern = &coarse.pattern;
    A = &coarse.A;
    points = std::move(coarse_points);
  }
  coarsest_.emplace(*pattern, threads_);
  const auto bad = coarsest_->factorise(*A);
  return bad < 0 || levels_.empty() ? bad : some_corner_of(bad);
}

std::int64_t AggregationMultigrid::some_corner_of(std::int64_t coarsest_node) const {
  for (auto level = levels_.rbegin(); level != levels_.rend(); ++level)
    coarsest_node = (*level)->transfer->some_row_of(coarsest_node);
  return coarsest_node;
}

void AggregationMultigrid::solve(const NodeVectors<float>& b, NodeVectors<float>& x) const {
  cycle(0, b, x);
}

void AggregationMultigrid::cycle(std::size_t number, const NodeVectors<float>& b,
                                 NodeVectors<float>& x) const {
  if (number == levels_.size()) {
    coarsest_->solve(b, x);
    return;
  }
  const Level& level = *levels_[number];
  const int columns = b.columns();
  NodeVectors<float> residual = b, correction(b.nodes(), columns), change(b.nodes(), columns);
  NodeVectors<float> force(level.transfer->coarse_nodes(), columns), moved = force;
  x.range(0, x.nodes()).setZero();
  level.smoother.smooth(x, residual, ChebyshevSmoother::Residual::updated);
  if (level.transfer->coarse_nodes() > 0) {
    level.transfer->restrict(residual, force);
    cycle(number + 1, force, moved);
    level.transfer->prolong(moved, correction);
    level.stored.apply(correction, change);
    in_parallel(b.nodes(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
      x.range(begin, end) += correction.range(begin, end);
      residual.range(begin, end) -= change.range(begin, end);
    });
  }
  level.smoother.smooth(x, residual, ChebyshevSmoother::Residual::not_needed);
}

}  // namespace crossgrain
