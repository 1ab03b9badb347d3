// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/iteration/stiffness_operator.h"

namespace crossgrain {

void StiffnessOperator::forces(const NodeVectors<double>& u, NodeVectors<double>& f) const {
  product_.apply(K_, u, f);
  additions_.rows.add_product(u, f);
  for (int c = 0; c < u.columns(); ++c) {
    const auto at = [c](auto& vectors, int node) { return vectors.at(node, c).template head<3>(); };
    for (const auto& spring : additions_.springs) {
      double stretch = 0.0;
      for (const auto& [node, direction] : spring.shares) stretch += direction.dot(at(u, node));
      for (const auto& [node, direction] : spring.shares)
        at(f, node) += spring.stiffness * stretch * direction;
    }
  }
}

void StiffnessOperator::apply(const NodeVectors<double>& u, NodeVectors<double>& f) const {
  forces(u, f);
  free_.project(f);
}

}  // namespace crossgrain
