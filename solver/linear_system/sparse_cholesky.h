// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>

#include "solver/linear_system/block_matrix.h"
#include "solver/linear_system/node_vectors.h"
#include "solver/linear_system/supernodal_factor.h"

namespace crossgrain {

/// L L^t of one pattern, for one set of values after another. Nodes are eliminated in the order of
/// a nested dissection of their graph.
class SparseCholesky {
 public:
  /// Symbolic analysis. @param pattern  kept by reference.
  explicit SparseCholesky(const BlockPattern& pattern);
  ~SparseCholesky();
  SparseCholesky(const SparseCholesky&) = delete;
  SparseCholesky& operator=(const SparseCholesky&) = delete;

  /// @return a node at which A turned out not to be positive definite, to round-off, or -1.
  /// @throws std::runtime_error if memory runs out.
  std::int64_t factorise(const Blocks<double>& A);

  /// A x = b.
  void solve(const NodeVectors<double>& b, NodeVectors<double>& x) const;

  /// Hand over the factor in single precision; the double one is given back to the system, the
  /// analysis kept.
  SupernodalFactor take_single();

  double bytes_of_factor() const;
  double operations() const;  ///< to factorise, floating-point

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace crossgrain
