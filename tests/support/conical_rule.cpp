// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/conical_rule.h"

#include <Eigen/Eigenvalues>
#include <cmath>

namespace crossgrain::testing {
namespace {

struct LineRule {
  Eigen::VectorXd points;   ///< on 0..1
  Eigen::VectorXd weights;  ///< for integrals with (1 - x)^power in them
};

/// By the eigenvalues of the recurrence of the Jacobi polynomials (Golub and Welsch, Math. Comp. 23
/// (1969) 221-230); their second exponent is 0 here.
LineRule gauss_jacobi(int n, int power) {
  const double a = power;
  Eigen::MatrixXd recurrence = Eigen::MatrixXd::Zero(n, n);
  for (int k = 0; k < n; ++k) {
    const double s = 2.0 * k + a;
    recurrence(k, k) = k == 0 ? -a / (a + 2.0) : -a * a / (s * (s + 2.0));
    if (k > 0)
      recurrence(k, k - 1) = recurrence(k - 1, k) =
          2.0 * k * (k + a) / (s * std::sqrt((s + 1.0) * (s - 1.0)));
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(recurrence);
  return {(eigen.eigenvalues().array() + 1.0) / 2.0,
          eigen.eigenvectors().row(0).array().square().transpose() / (a + 1.0)};
}

}  // namespace

TetrahedronRule conical_rule(int n) {
  const auto first = gauss_jacobi(n, 2), second = gauss_jacobi(n, 1), third = gauss_jacobi(n, 0);
  TetrahedronRule rule{2 * n - 1, Eigen::Matrix3Xd(3, n * n * n), Eigen::VectorXd(n * n * n)};
  Eigen::Index q = 0;
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      for (int k = 0; k < n; ++k, ++q) {
        const double x = first.points[i], y = second.points[j] * (1.0 - x);
        rule.points.col(q) << x, y, third.points[k] * (1.0 - x - y);
        rule.weights[q] = first.weights[i] * second.weights[j] * third.weights[k];
      }
    }
  }
  return rule;
}

}  // namespace crossgrain::testing
