// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cassert>
#include <vector>

#include "solver/stress/stress_recovery.h"

namespace crossgrain {

/// Finds the stress point of a node in a body, among points as `stress_points` orders them.
class BodyPoints {
 public:
  explicit BodyPoints(const std::vector<StressPoint>& points) : points_(points) {}

  /// @return its place in the list. The node must be one of that body.
  Eigen::Index of(int node, BodyId body) const {
    const auto before = [](const StressPoint& a, const StressPoint& b) {
      return a.body != b.body ? a.body < b.body : a.node < b.node;
    };
    const auto point =
        std::lower_bound(points_.begin(), points_.end(), StressPoint{node, body, 0}, before);
    assert(point != points_.end() && point->body == body && point->node == node);
    return point - points_.begin();
  }

 private:
  const std::vector<StressPoint>& points_;
};

}  // namespace crossgrain
