// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/iteration/conjugate_gradients.h"

#include <algorithm>
#include <limits>

#include "solver/blocks/node_sums.h"

namespace crossgrain {
namespace {

using Eigen::ArrayXd;

/// Division that leaves columns at rest whose numbers have vanished: they are solved.
ArrayXd ratio(const ArrayXd& a, const ArrayXd& b) {
  return (b.abs() > std::numeric_limits<double>::min()).select(a / b, 0.0);
}

class Iteration {
 public:
  Iteration(const StiffnessOperator& A, const Preconditioner& M, const NodeVectors<double>& f,
            NodeVectors<double>& u, const ConvergenceLimits& limits, int threads)
      : A_(A),
        M_(M),
        f_(f),
        u_(u),
        limits_(limits),
        threads_(threads),
        r_(f.nodes(), f.columns()),
        z_(r_),
        p_(r_),
        q_(r_),
        old_r_(r_) {
    size_ = sums_of_products(f, f, threads).sqrt();
  }

  Convergence run() {
    take_true_residual();
    while (!reached() && result_.trouble.empty()) {
      descend();
      const ArrayXd before = result_.relative_residual;
      take_true_residual();
      // A round that did not bring even a digit is the end of what double precision can do.
      if (!reached() && result_.trouble.empty() &&
          !(result_.relative_residual.maxCoeff() < 0.1 * before.maxCoeff())) {
        result_.trouble = "round-off keeps the residual where it is";
        result_.at_round_off = result_.relative_residual.isFinite().all();
      }
    }
    result_.reached = reached();
    if (!result_.reached) estimate_energy_error();
    return result_;
  }

 private:
  void take_true_residual() {
    A_.apply(u_, q_);
    add_scaled(ArrayXd::Constant(f_.columns(), -1.0), q_, f_, r_, threads_);
    result_.relative_residual = relative(sums_of_products(r_, r_, threads_).sqrt());
  }

  ArrayXd relative(const ArrayXd& length) const {
    return (size_ > 0.0).select(length / size_, length);
  }

  bool reached() const {
    return result_.relative_residual.isFinite().all() &&
           result_.relative_residual.maxCoeff() <= limits_.tolerance;
  }

  /// e = A^-1 r, nearly M^-1 r: |e|^2 = r . e, |u|^2 = f . u to the digits that matter.
  void estimate_energy_error() {
    M_.apply(r_, z_);
    result_.relative_energy_error =
        ratio(sums_of_products(r_, z_, threads_), sums_of_products(f_, u_, threads_)).sqrt();
  }

  /// Until the recurrence says that the tolerance is reached, or there is trouble.
  void descend() {
    ArrayXd old_rz = ArrayXd::Zero(f_.columns());
    double best = std::numeric_limits<double>::infinity();
    int since_best = 0;
    for (bool first = true; result_.trouble.empty(); first = false) {
      M_.apply(r_, z_);
      const ArrayXd rz = sums_of_products(r_, z_, threads_);
      const ArrayXd beta = first ? ArrayXd::Zero(f_.columns())
                                 : ratio(rz - sums_of_products(old_r_, z_, threads_), old_rz);
      add_scaled(beta, p_, z_, p_, threads_);
      A_.apply(p_, q_);
      const ArrayXd pq = sums_of_products(p_, q_, threads_);
      const ArrayXd alpha = ratio(rz, pq);
      if (!alpha.isFinite().all() || (pq < 0.0).any() || (rz < 0.0).any()) {
        result_.trouble = "the preconditioned matrix is not positive definite, to round-off";
        return;
      }
      add_scaled(alpha, p_, u_, u_, threads_);
      std::swap(old_r_, r_);
      add_scaled(ArrayXd(-alpha), q_, old_r_, r_, threads_);
      old_rz = rz;
      ++result_.iterations;

      const double left = relative(sums_of_products(r_, r_, threads_).sqrt()).maxCoeff();
      if (left <= limits_.tolerance) return;
      if (left < 0.5 * best) {
        best = left;
        since_best = 0;
      } else if (++since_best > limits_.patience) {
        result_.trouble = "the residual has stopped falling";
      }
      if (result_.iterations >= limits_.iterations)
        result_.trouble = "the limit of iterations was reached";
    }
  }

  const StiffnessOperator& A_;
  const Preconditioner& M_;
  const NodeVectors<double>& f_;
  NodeVectors<double>& u_;
  const ConvergenceLimits& limits_;
  int threads_;
  NodeVectors<double> r_, z_, p_, q_, old_r_;
  ArrayXd size_;
  Convergence result_;
};

}  // namespace

Convergence conjugate_gradients(const StiffnessOperator& A, const Preconditioner& M,
                                const NodeVectors<double>& f, NodeVectors<double>& u,
                                const ConvergenceLimits& limits, int threads) {
  return Iteration(A, M, f, u, limits, threads).run();
}

}  // namespace crossgrain
