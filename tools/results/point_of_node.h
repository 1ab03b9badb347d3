// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cassert>
#include <vector>

#include "tools/results/run_outputs.h"

namespace crossgrain {

/// Finds the stress point of a node as seen from one body, body after body.
class PointOfNode {
 public:
  explicit PointOfNode(const RunOutputs& outputs)
      : points_(outputs.points), point_(outputs.meshed.mesh.node_count(), -1) {}

  /// Must be called before nodes of `body` are asked for.
  void turn_to(BodyId body) {
    if (body == body_) return;
    std::fill(point_.begin(), point_.end(), -1);
    for (std::size_t i = 0; i < points_.size(); ++i) {
      if (points_[i].body == body) point_[points_[i].node] = static_cast<int>(i);
    }
    body_ = body;
  }
  int operator()(int node) const {
    assert(point_[node] >= 0);
    return point_[node];
  }

 private:
  const std::vector<StressPoint>& points_;
  std::vector<int> point_;
  BodyId body_{0};
};

}  // namespace crossgrain
