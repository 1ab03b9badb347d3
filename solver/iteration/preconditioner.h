// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/blocks/node_vectors.h"

namespace crossgrain {

/// Something near the inverse of a stiffness: symmetric and positive definite.
class Preconditioner {
 public:
  virtual ~Preconditioner() = default;
  /// z = M r.
  virtual void apply(const NodeVectors<double>& r, NodeVectors<double>& z) const = 0;
};

}  // namespace crossgrain
