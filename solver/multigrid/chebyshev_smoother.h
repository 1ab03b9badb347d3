// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/multigrid/joined_nodes.h"
#include "solver/multigrid/level_operator.h"

namespace crossgrain {

/// Smooths the error of A x = b by a polynomial in D^-1 A, with D the 3x3 diagonal blocks: fourth-
/// kind Chebyshev, which needs no guess of the lower end of the spectrum, with the weights that are
/// best for a two-level cycle.
/// Source: J. Lottes, Optimal polynomial smoothers for multigrid V-cycles, Numer. Linear Algebra
/// Appl. 30 (2023) e2518; the weights from its table, from memory.
class ChebyshevSmoother {
 public:
  /// @param degree  1 to 4: products with A of one smoothing.
  ChebyshevSmoother(int degree, int threads);

  /// Estimates the largest eigenvalue of D^-1 A.
  /// @param A  kept by reference.
  /// @param joined  nodes that are one block of D, kept; none: every node is its own.
  void set_operator(const LevelOperator& A, const JoinedNodes* joined = nullptr);

  enum class Residual { updated, not_needed };
  /// Change x and its residual b - A x, which is left half-done where it is not needed.
  void smooth(NodeVectors<float>& x, NodeVectors<float>& residual, Residual wanted) const;

  float largest_eigenvalue() const { return largest_; }

 private:
  void estimate_largest();
  /// visit(node, column, D^-1 r there), in parallel.
  template <class Visit>
  void over_diagonal(const NodeVectors<float>& r, const Visit& visit) const;

  int degree_;
  int threads_;
  const LevelOperator* A_ = nullptr;
  const JoinedNodes* joined_ = nullptr;
  std::vector<Eigen::Matrix3f> inverse_diagonal_;
  float largest_ = 0.0F;
};

}  // namespace crossgrain
