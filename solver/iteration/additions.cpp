// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/iteration/additions.h"

namespace crossgrain {

double along(const std::vector<StiffnessAdditions::Spring::Share>& shares,
             const Eigen::VectorXd& u) {
  double sum = 0.0;
  for (const auto& [node, direction] : shares)
    sum += direction.dot(u.segment<3>(3 * Eigen::Index{node}));
  return sum;
}

Eigen::VectorXd added_forces(const StiffnessAdditions& additions, const Eigen::VectorXd& u) {
  Eigen::VectorXd forces = Eigen::VectorXd::Zero(u.size());
  const auto at = [](int node) { return 3 * Eigen::Index{node}; };
  for (const auto& [i, j, stiffness] : additions.blocks) {
    forces.segment<3>(at(i)) += stiffness * u.segment<3>(at(j));
    if (i != j) forces.segment<3>(at(j)) += stiffness.transpose() * u.segment<3>(at(i));
  }
  for (const auto& [shares, stiffness] : additions.springs) {
    const double length = along(shares, u);
    for (const auto& [node, direction] : shares)
      forces.segment<3>(at(node)) += stiffness * length * direction;
  }
  return forces;
}

}  // namespace crossgrain
