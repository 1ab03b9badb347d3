// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>

#include "solver/blocks/block_matrix.h"
#include "solver/blocks/node_vectors.h"
#include "solver/cholesky/elimination_schedule.h"

namespace crossgrain {

/// L L^t of one pattern, for one set of values after another. Groups of columns are eliminated as
/// dense matrices, each of which takes over what its children in the tree of groups have left (the
/// multifrontal method: J. W. H. Liu, SIAM Review 34, 1992); in double precision, whatever the one
/// that L is kept in. Results do not depend on the number of threads.
/// @tparam Stored  double, or float for half the bytes: they are what a solution costs.
template <class Stored>
class SparseCholesky {
 public:
  /// @throws std::runtime_error if memory runs out, or would in factorising.
  SparseCholesky(const BlockPattern& pattern, int threads);

  /// @return a node at which A turned out not to be positive definite, to round-off, or -1. There
  /// is no factor then.
  std::int64_t factorise(const Blocks<double>& A);

  /// A x = b.
  void solve(const NodeVectors<Stored>& b, NodeVectors<Stored>& x) const;

  double bytes_of_factor() const { return 1.0 * sizeof(Stored) * elimination_.values(); }
  double operations() const { return elimination_.operations(); }  ///< to factorise

 private:
  /// A block of the matrix and where its column takes it.
  struct Entry {
    std::int64_t block;
    int row;  ///< position
    bool transposed;
  };
  class Front;
  class Solution;
  void list_entries(const BlockPattern& pattern);

  Elimination elimination_;
  EliminationSchedule schedule_;
  std::vector<std::int64_t> first_entry_;  ///< of each position
  std::vector<Entry> entries_;
  std::unique_ptr<Stored[]> values_;
};

}  // namespace crossgrain
