// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/fluid_in_pairs.h"

namespace crossgrain {

FluidInPairs::FluidInPairs(const TetrahedronMesh& mesh, const JointSystem& system)
    : mesh_(mesh), system_(system), spread_(mesh, system.points()) {}

void FluidInPairs::begin(const std::vector<FluidInJoint>& fluids) {
  fluids_ = fluids;
  pressure_.setZero(static_cast<Eigen::Index>(system_.size()));
}

bool FluidInPairs::creeps_on(const JointMotion& motion, Eigen::VectorXd& forces) {
  bool farther = false;
  for (const auto& fluid : fluids_) {
    if (fluid.pressure == 0.0) continue;
    std::vector<bool> may_enter(system_.size());
    for (std::size_t p = 0; p < system_.size(); ++p) {
      const double pressed =
          -system_.response(p, motion.jumps.col(p)).traction.dot(system_.points()[p].normal);
      may_enter[p] = pressure_[p] > 0.0 ||
                     (!std::holds_alternative<Tied>(system_.law(p)) && pressed < fluid.pressure);
    }
    const auto wet = spread_.reached(may_enter, fluid.wetted_nodes);
    for (std::size_t p = 0; p < system_.size(); ++p)
      if (wet[p] && fluid.pressure > pressure_[p]) {
        pressure_[p] = fluid.pressure;
        farther = true;
      }
  }
  for (std::size_t p = 0; p < system_.size(); ++p)
    if (pressure_[p] > 0.0)
      add_traction(mesh_, system_.points()[p], pressure_[p] * system_.points()[p].normal, forces);
  return farther;
}

}  // namespace crossgrain
