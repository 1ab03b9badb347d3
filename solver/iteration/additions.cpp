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

double work(const StiffnessAdditions& additions, const Eigen::VectorXd& u,
            const Eigen::VectorXd& v) {
  double sum = 0.0;
  for (const auto& [shares, stiffness] : additions.springs)
    if (stiffness > 0.0) sum += stiffness * along(shares, u) * along(shares, v);
  for (const auto& [i, j, stiffness] : additions.blocks) {
    const auto at = [](const Eigen::VectorXd& w, int node) {
      return w.segment<3>(3 * Eigen::Index{node});
    };
    sum += at(v, i).dot(stiffness * at(u, j));
    if (i != j) sum += at(v, j).dot(stiffness.transpose() * at(u, i));
  }
  return sum;
}

}  // namespace crossgrain
