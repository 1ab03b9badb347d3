// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/multigrid/two_level_cycle.h"

#include "solver/assembly/added_at_corners.h"
#include "solver/elements/parallel.h"
#include "solver/multigrid/element_operator.h"
#include "solver/multigrid/joined_operator.h"

namespace crossgrain {
namespace {

/// Measured on the filter bowl. In front of a factor, whose solution has its price, two steps take
/// 17 iterations, three 13, four 11 and the least time; in front of aggregation three save one of
/// 18 and take a tenth more time than two.
int smoothing_degree(const CornerSolver& corners) { return corners.exact() ? 4 : 2; }

FreeDirections at_corners(const FreeDirections& free, const LinearLevel& level) {
  std::vector<FreeDirections::HeldNode> held;
  for (const auto& node : free.held()) {
    const auto [a, b] = level.ends()[node.node];
    if (a >= 0 && a == b) held.push_back({a, node.free});
  }
  return {level.corners(), std::move(held)};
}

}  // namespace

TwoLevelCycle::TwoLevelCycle(const BlockPattern& pattern, const BlockPattern& corner_pattern,
                             const LinearLevel& level, const BlockProduct& product,
                             const FreeDirections& free, CornerMethod corner_method, int threads)
    : pattern_(pattern),
      level_(level),
      product_(product),
      free_(free),
      free_corners_(at_corners(free, level)),
      corner_method_(corner_method),
      threads_(threads),
      corner_sum_(corner_pattern) {}

std::int64_t TwoLevelCycle::set_corner_matrix(const Blocks<double>& K_corners,
                                              const AddedBlocks& added) {
  const AddedBlocks added_corners = at_corners(added, level_);
  if (corner_sum_.make_room(added_corners) || !corners_) {
    corners_.reset();
    corners_ = make_corner_solver(corner_method_, corner_sum_.pattern(), pattern_.size(), level_,
                                  free_corners_, threads_);
    smoother_.emplace(smoothing_degree(*corners_), threads_);
  }
  Blocks<double> projected;
  free_corners_.project(corner_sum_.pattern(), corner_sum_.of(K_corners, added_corners), projected,
                        threads_);
  const auto bad = corners_->set_matrix(projected);
  return bad < 0 ? -1 : level_.rank_of_corner()[bad];
}

void TwoLevelCycle::set_fine_matrix(const Blocks<double>& K, const StraightElements* elements,
                                    const AddedBlocks& added) {
  if (elements) {
    fine_ = std::make_unique<ElementOperator>(*elements, pattern_, K, free_);
  } else {
    free_.project(pattern_, K, stored_, threads_);
    fine_ = std::make_unique<StoredOperator>(pattern_, stored_, product_);
  }
  const AddedBlocks projected = free_.projected(added);
  if (!added.empty())
    fine_ = std::make_unique<JoinedOperator>(std::move(fine_), projected, threads_);
  joined_.emplace(pattern_, K, free_, projected, threads_);
  smoother_->set_operator(*fine_, &*joined_);
}

void TwoLevelCycle::apply(const NodeVectors<double>& r, NodeVectors<double>& z) const {
  const int columns = r.columns();
  NodeVectors<float> residual(r.nodes(), columns), x(r.nodes(), columns),
      correction(r.nodes(), columns), change(r.nodes(), columns);
  // In single precision a small residual must not vanish among the denormal numbers.
  const float size = static_cast<float>(r.range(0, r.nodes()).cwiseAbs().maxCoeff());
  if (!(size > 0.0F)) {
    z.range(0, z.nodes()).setZero();
    return;
  }
  const double scale = 1.0 / static_cast<double>(size);
  in_parallel(r.nodes(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    residual.range(begin, end) = (scale * r.range(begin, end)).cast<float>();
  });

  smoother_->smooth(x, residual, ChebyshevSmoother::Residual::updated);

  NodeVectors<float> force(level_.corners(), columns), moved(level_.corners(), columns);
  level_.restrict_to_corners(residual, force);
  free_corners_.project(force);
  corners_->solve(force, moved);
  level_.add_from_corners(moved, correction);
  free_.project(correction);
  fine_->apply(correction, change);
  in_parallel(r.nodes(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    x.range(begin, end) += correction.range(begin, end);
    residual.range(begin, end) -= change.range(begin, end);
  });

  smoother_->smooth(x, residual, ChebyshevSmoother::Residual::not_needed);
  in_parallel(r.nodes(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    z.range(begin, end) = x.range(begin, end).cast<double>() / scale;
  });
}

}  // namespace crossgrain
