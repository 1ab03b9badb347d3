// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/Eigenvalues>
#include <cmath>
#include <limits>

namespace crossgrain {

// Where a straight path of stress, held + multiplier * scaling, leaves a convex set that holds its
// start. Everywhere: infinity if it never does.
inline constexpr double never = std::numeric_limits<double>::infinity();

/// Larger principal value of the symmetric block [a c; c b], to full relative accuracy: the sum of
/// a negative mean and a positive radius would cancel.
inline double larger_principal(double a, double b, double c) {
  const double mean = 0.5 * (a + b);
  const double radius = std::sqrt(0.25 * (a - b) * (a - b) + c * c);
  if (mean >= 0.0) return mean + radius;
  return radius == -mean ? 0.0 : (c * c - a * b) / (radius - mean);
}

/// Largest multiplier >= 0 with |u + multiplier v| <= 1. The start may lie outside the ball if the
/// path still passes through it (needed where a bracket switches a component off at the start);
/// infinity if it misses.
template <int N>
double leave_unit_ball(const Eigen::Matrix<double, N, 1>& u, const Eigen::Matrix<double, N, 1>& v) {
  const double v2 = v.squaredNorm();
  if (!(v2 > 0.0)) return never;
  // Nearest point of the path to the centre, then half the chord: no difference of large squares.
  const double middle = -u.dot(v) / v2;
  const double off_centre2 = (u + middle * v).squaredNorm();
  if (!(off_centre2 <= 1.0)) return never;
  const double half_chord = std::sqrt((1.0 - off_centre2) / v2);
  const double multiplier =
      middle >= 0.0 ? middle + half_chord : (1.0 - u.squaredNorm()) / (v2 * (half_chord - middle));
  return multiplier >= 0.0 ? multiplier : never;
}

/// First multiplier at which A - multiplier * B stops being positive definite.
/// @param A  symmetric positive definite.  @param B  symmetric.
template <int N>
double leave_positive_definite(const Eigen::Matrix<double, N, N>& A,
                               const Eigen::Matrix<double, N, N>& B) {
  const Eigen::LLT<Eigen::Matrix<double, N, N>> factor(A);
  if (factor.info() != Eigen::Success) return 0.0;  // at the limit to within rounding
  Eigen::Matrix<double, N, N> M = factor.matrixL().solve(B);
  M = factor.matrixL().solve(M.transpose()).eval();
  double largest = 0.0;
  if constexpr (N == 2) {
    largest = larger_principal(M(0, 0), M(1, 1), 0.5 * (M(0, 1) + M(1, 0)));
  } else {
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix<double, N, N>> eigen(M,
                                                                           Eigen::EigenvaluesOnly);
    largest = eigen.eigenvalues()[N - 1];
  }
  return largest > 0.0 ? 1.0 / largest : never;
}

/// Positive root of a x^2 + b x + c with a >= 0 and c < 0.
inline double positive_root(double a, double b, double c) {
  const double root = std::sqrt(b * b - 4.0 * a * c);
  if (b >= 0.0) return b + root > 0.0 ? -2.0 * c / (b + root) : never;
  return a > 0.0 ? (root - b) / (2.0 * a) : never;
}

/// Root of an increasing convex function by Newton's method from the right, kept in a bracket.
/// @param excess  returns {value, slope}; value < 0 at 0.  @param right  a point with value >= 0.
template <typename Excess>
double root_from_the_right(Excess excess, double right) {
  double low = 0.0;
  double high = right;
  double x = right;
  // Newton on a convex function goes down to the root and never past it but for rounding; the
  // halving is for functions whose slope underflows.
  for (int step = 0; step < 100; ++step) {
    const auto [value, slope] = excess(x);
    (value < 0.0 ? low : high) = x;
    double next = x - value / slope;
    if (!(next >= low && next <= high)) next = 0.5 * (low + high);
    const double moved = std::abs(next - x);
    x = next;
    if (moved <= 2.0 * std::numeric_limits<double>::epsilon() * x) break;
  }
  return x;
}

}  // namespace crossgrain
