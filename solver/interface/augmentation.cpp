// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/augmentation.h"

#include <algorithm>
#include <cmath>

#include "solver/interface/contact_stiffness.h"

namespace crossgrain {

bool is_direct(const InterfaceLaw& law) { return !std::holds_alternative<Bedding>(law); }

double penetration(const JointSystem& system, const JointMotion& motion) {
  const auto pairs = static_cast<Eigen::Index>(system.joint().pairs.size());
  Eigen::VectorXd off = Eigen::VectorXd::Zero(pairs), element = off;
  for (std::size_t p = 0; p < system.size(); ++p) {
    if (!is_direct(system.law(p))) continue;
    const auto& point = system.points()[p];
    const Eigen::Vector3d jump = motion.jumps.col(p);
    const Eigen::Vector3d traction = system.response(p, jump).traction;
    const bool tied = std::holds_alternative<Tied>(system.law(p));
    const Eigen::Vector3d miss = tied ? jump : Eigen::Vector3d(system.gap(p, jump) * point.normal);
    const auto pair = static_cast<Eigen::Index>(system.pair(p));
    off[pair] += point.area * traction.dot(miss);
    element[pair] += point.area * traction.squaredNorm() * element_compliance(point);
  }
  double largest = 0.0;
  for (Eigen::Index pair = 0; pair < pairs; ++pair)
    if (element[pair] > 0.0) largest = std::max(largest, std::abs(off[pair]) / element[pair]);
  return largest;
}

void hold_tractions(JointSystem& system, const JointMotion& motion) {
  for (std::size_t p = 0; p < system.size(); ++p)
    if (is_direct(system.law(p)))
      system.held.col(p) = system.response(p, motion.jumps.col(p)).traction;
}

}  // namespace crossgrain
