// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/aggregation/block_table.h"

namespace crossgrain {

/// A node at which a diagonal block is not positive definite, to round-off; -1: there is none.
Eigen::Index indefinite_diagonal(const BlockPattern& pattern, const Blocks<double>& A);

/// One step of damped Jacobi on every column: (I - damping D^-1 A) P, D the 3x3 diagonal blocks.
/// What A leaves without energy stays as it is.
BlockTable smoothed(const BlockTable& P, const SymmetricRows& A, double damping, int threads);

struct GalerkinMatrix {
  BlockPattern pattern;
  Blocks<double> A;
};

/// P^t A P, with its own size on the diagonal of unknowns that move nothing.
GalerkinMatrix galerkin_matrix(const BlockTable& P, const SymmetricRows& A, int threads);

}  // namespace crossgrain
