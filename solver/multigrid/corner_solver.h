// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

#include "solver/blocks/block_matrix.h"
#include "solver/blocks/node_vectors.h"

namespace crossgrain {

/// The inverse of the corners' matrix, or something near it that is symmetric and positive
/// definite.
class CornerSolver {
 public:
  virtual ~CornerSolver() = default;
  /// @param A  held directions projected out.
  /// @return a corner at which A turned out not to be positive definite, to round-off, or -1.
  virtual std::int64_t set_matrix(const Blocks<double>& A) = 0;
  /// x of A x = b, exactly or nearly.
  virtual void solve(const NodeVectors<float>& b, NodeVectors<float>& x) const = 0;
  virtual bool exact() const = 0;  ///< but for rounding
};

}  // namespace crossgrain
