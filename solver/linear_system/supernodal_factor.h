// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

#include "solver/linear_system/node_vectors.h"

namespace crossgrain {

/// A Cholesky factor L in single precision, its columns grouped where they have the same rows: half
/// the bytes of the double one, and bytes are what a solution costs.
class SupernodalFactor {
 public:
  struct Structure {
    std::vector<std::int64_t> row_of;        ///< of the matrix, for each row of L
    std::vector<std::int64_t> first_column;  ///< of each group, and one past the last
    std::vector<std::int64_t> first_row;     ///< into `rows`, and one past the last
    std::vector<std::int64_t> first_value;   ///< into the values, and one past the last
    std::vector<std::int64_t> rows;          ///< the group's own columns first
  };
  /// @param values  of L, each group's columns one after the other, all its rows long.
  SupernodalFactor(Structure structure, const double* values);

  /// L L^t x = b; rows of the matrix are components, three a node.
  void solve(const NodeVectors<float>& b, NodeVectors<float>& x) const;

 private:
  void forward(std::int64_t group, float* y, int columns, std::vector<float>& work) const;
  void backward(std::int64_t group, float* y, int columns, std::vector<float>& work) const;

  Structure structure_;
  std::vector<float> values_;
};

}  // namespace crossgrain
