// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "solver/iteration/preconditioner.h"
#include "solver/iteration/stiffness_operator.h"

namespace crossgrain {

struct Convergence {
  int iterations = 0;
  Eigen::ArrayXd relative_residual;  ///< true ones, |f - A u| / |f|, of each column
  bool reached = false;              ///< the tolerance, by every column
  std::string trouble;               ///< why not, in words
  bool at_round_off = false;         ///< the trouble is that double precision ends here
  /// Where the tolerance was not reached: the energy norm of the error over the solution's, by the
  /// preconditioner's estimate of the error, which falls short by no more than its own quality.
  Eigen::ArrayXd relative_energy_error;
};

struct ConvergenceLimits {
  double tolerance = 1e-9;
  int iterations = 400;
  /// Without the best residual halving in as many, nothing more is to be hoped for.
  int patience = 60;
};

/// Solve A u = f for several right-hand sides at a time. The preconditioner may be inexact (single
/// precision): directions are made conjugate to the change of the residual (Polak and Ribière).
/// Starts again from the true residual when the recurrence has drifted from it.
/// @param u  the start, and the solution; the best that was found if the tolerance was not reached.
Convergence conjugate_gradients(const StiffnessOperator& A, const Preconditioner& M,
                                const NodeVectors<double>& f, NodeVectors<double>& u,
                                const ConvergenceLimits& limits, int threads);

}  // namespace crossgrain
