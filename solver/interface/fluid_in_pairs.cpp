// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/fluid_in_pairs.h"

namespace crossgrain {

FluidInPairs::FluidInPairs(const TetrahedronMesh& mesh, const JointSystem& system)
    : mesh_(mesh), system_(system) {
  for (const auto& pair : system.joint().pairs) spreads_.emplace_back(mesh, pair.points);
}

void FluidInPairs::begin(const std::vector<FluidInJoint>& fluids) {
  fluids_ = fluids;
  pressure_.setZero(static_cast<Eigen::Index>(system_.size()));
}

bool FluidInPairs::creeps_on(const JointMotion& motion, Eigen::VectorXd& forces) {
  bool farther = false;
  for (const auto& fluid : fluids_) {
    if (fluid.pressure == 0.0) continue;
    std::size_t first = 0;
    for (const auto& spread : spreads_) {
      const std::size_t count = spread.size();
      std::vector<bool> may_enter(count);
      for (std::size_t i = 0; i < count; ++i) {
        const std::size_t p = first + i;
        const double pressed =
            -system_.response(p, motion.jumps.col(p)).traction.dot(system_.points()[p].normal);
        may_enter[i] = pressure_[p] > 0.0 ||
                       (!std::holds_alternative<Tied>(system_.law(p)) && pressed < fluid.pressure);
      }
      const auto wet = spread.reached(may_enter, fluid.wetted_nodes);
      for (std::size_t i = 0; i < count; ++i)
        if (wet[i] && fluid.pressure > pressure_[first + i]) {
          pressure_[first + i] = fluid.pressure;
          farther = true;
        }
      first += count;
    }
  }
  for (std::size_t p = 0; p < system_.size(); ++p)
    if (pressure_[p] > 0.0)
      add_traction(mesh_, system_.points()[p], pressure_[p] * system_.points()[p].normal, forces);
  return farther;
}

}  // namespace crossgrain
