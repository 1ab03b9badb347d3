// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/blocks/block_product.h"
#include "solver/blocks/free_directions.h"
#include "solver/iteration/additions_by_rank.h"

namespace crossgrain {

/// u -> P (K + additions) P u on what supports leave free; all arguments are kept by reference.
class StiffnessOperator {
 public:
  StiffnessOperator(const Blocks<double>& K, const BlockProduct& product,
                    const FreeDirections& free, const AdditionsByRank& additions)
      : K_(K), product_(product), free_(free), additions_(additions) {}

  /// f = (K + additions) u, supports or not.
  void forces(const NodeVectors<double>& u, NodeVectors<double>& f) const;
  /// @param u  within the free directions.
  void apply(const NodeVectors<double>& u, NodeVectors<double>& f) const;

 private:
  const Blocks<double>& K_;
  const BlockProduct& product_;
  const FreeDirections& free_;
  const AdditionsByRank& additions_;
};

}  // namespace crossgrain
