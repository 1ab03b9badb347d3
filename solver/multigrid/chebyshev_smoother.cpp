// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/multigrid/chebyshev_smoother.h"

#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <cassert>

#include "solver/blocks/node_sums.h"
#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

constexpr int lanczos_steps = 12;
constexpr float margin = 1.05F;  // Lanczos comes from below

constexpr float best_weights[4][4] = {
    {1.12500000000000F},
    {1.02387287570313F, 1.26408905371085F},
    {1.00842544782028F, 1.08867839208730F, 1.33753125909618F},
    {1.00391310427285F, 1.04035811188593F, 1.14863498546254F, 1.38268869241000F}};

/// Something without symmetry, the same on every machine.
void fill_arbitrarily(NodeVectors<float>& vectors) {
  std::uint32_t state = 12345;
  for (Eigen::Index i = 0; i < vectors.nodes(); ++i)
    for (int k = 0; k < 3; ++k) {
      state = state * 1664525U + 1013904223U;
      vectors.at(i, 0)[k] = static_cast<float>(state >> 8) / 16777216.0F - 0.5F;
    }
}

}  // namespace

ChebyshevSmoother::ChebyshevSmoother(int degree, int threads) : degree_(degree), threads_(threads) {
  assert(degree >= 1 && degree <= 4);
}

void ChebyshevSmoother::set_operator(const LevelOperator& A, const JoinedNodes* joined) {
  A_ = &A;
  joined_ = joined && !joined->empty() ? joined : nullptr;
  inverse_diagonal_.resize(A.nodes());
  in_parallel(A.nodes(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto i = begin; i < end; ++i) inverse_diagonal_[i] = A.diagonal(i).inverse().cast<float>();
  });
  estimate_largest();
}

template <class Visit>
void ChebyshevSmoother::over_diagonal(const NodeVectors<float>& r, const Visit& visit) const {
  NodeVectors<float> at_joined;
  if (joined_) joined_->solve(r, at_joined);
  in_parallel(r.nodes(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto i = begin; i < end; ++i) {
      const int place = joined_ ? joined_->place(i) : -1;
      for (int c = 0; c < r.columns(); ++c)
        visit(i, c,
              place < 0 ? Eigen::Vector3f(inverse_diagonal_[i] * r.at(i, c).head<3>())
                        : Eigen::Vector3f(at_joined.at(place, c).head<3>()));
    }
  });
}

void ChebyshevSmoother::estimate_largest() {
  // Conjugate gradients on A x = b with D in front: their coefficients are Lanczos' tridiagonal
  // matrix.
  const auto nodes = A_->nodes();
  NodeVectors<float> r(nodes, 1), z(nodes, 1), p(nodes, 1), q(nodes, 1);
  fill_arbitrarily(z);
  A_->apply(z, r);  // within what supports leave free
  Eigen::MatrixXd lanczos = Eigen::MatrixXd::Zero(lanczos_steps, lanczos_steps);
  double old_rz = 0.0, old_alpha = 1.0;
  int steps = 0;
  for (; steps < lanczos_steps; ++steps) {
    over_diagonal(r, [&](Eigen::Index i, int c, const Eigen::Vector3f& value) {
      z.at(i, c).head<3>() = value;
    });
    const double rz = sums_of_products(r, z, threads_)[0];
    if (!(rz > 0.0)) break;
    const double beta = steps == 0 ? 0.0 : rz / old_rz;
    add_scaled(Eigen::ArrayXd::Constant(1, beta), p, z, p, threads_);
    A_->apply(p, q);
    const double pq = sums_of_products(p, q, threads_)[0];
    if (!(pq > 0.0)) break;
    const double alpha = rz / pq;
    lanczos(steps, steps) = 1.0 / alpha + (steps == 0 ? 0.0 : beta / old_alpha);
    if (steps > 0)
      lanczos(steps, steps - 1) = lanczos(steps - 1, steps) = std::sqrt(beta) / old_alpha;
    add_scaled(Eigen::ArrayXd::Constant(1, -alpha), q, r, r, threads_);
    old_rz = rz;
    old_alpha = alpha;
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(lanczos.topLeftCorner(steps, steps),
                                                             Eigen::EigenvaluesOnly);
  largest_ = margin * static_cast<float>(eigen.eigenvalues().maxCoeff());
}

void ChebyshevSmoother::smooth(NodeVectors<float>& x, NodeVectors<float>& residual,
                               Residual wanted) const {
  const int columns = x.columns();
  NodeVectors<float> step(x.nodes(), columns), change(x.nodes(), columns);
  // The recurrence follows the polynomial without weights; the residual of x is a sum beside it.
  NodeVectors<float> recurrence = residual;
  for (int k = 1; k <= degree_; ++k) {
    const float keep = static_cast<float>(2 * k - 3) / static_cast<float>(2 * k + 1);
    const float take = static_cast<float>(8 * k - 4) / (static_cast<float>(2 * k + 1) * largest_);
    const float weight = best_weights[degree_ - 1][k - 1];
    over_diagonal(recurrence, [&](Eigen::Index i, int c, const Eigen::Vector3f& value) {
      auto s = step.at(i, c).head<3>();
      s = keep * s + take * value;
      x.at(i, c).head<3>() += weight * s;
    });
    if (k == degree_ && wanted == Residual::not_needed) return;
    A_->apply(step, change);
    in_parallel(x.nodes(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
      recurrence.range(begin, end) -= change.range(begin, end);
      residual.range(begin, end) -= weight * change.range(begin, end);
    });
  }
}

}  // namespace crossgrain
