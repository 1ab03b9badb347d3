// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/blocks/added_blocks.h"

namespace crossgrain {

/// A matrix and blocks added to it, on a pattern that grows when a place is new and never shrinks:
/// what was worked out for the pattern serves again while blocks come and go.
class SumOfBlocks {
 public:
  /// @param pattern  of the matrix, kept by reference.
  explicit SumOfBlocks(const BlockPattern& pattern) : base_(pattern) {}

  /// @return whether the pattern is another one.
  bool make_room(const AddedBlocks& added) {
    if (covers(pattern(), added)) return false;
    extended_ = extended(pattern(), added);
    return true;
  }
  const BlockPattern& pattern() const { return extended_.nodes() < 0 ? base_ : extended_; }

  /// A + added; what is returned stays until the next call.
  const Blocks<double>& of(const Blocks<double>& A, const AddedBlocks& added) {
    if (&pattern() == &base_ && added.empty()) return A;
    add(base_, A, added, pattern(), sum_);
    return sum_;
  }

 private:
  const BlockPattern& base_;
  BlockPattern extended_;  ///< without rows while the matrix' own is enough
  Blocks<double> sum_;
};

}  // namespace crossgrain
