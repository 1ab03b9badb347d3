// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/joint_description.h"

namespace crossgrain {
namespace {

/// @param first  the pair's first point among all.
PairState pair_state(const JointSystem& system, const JointMotion& motion,
                     const Eigen::VectorXd& fluid_pressure, Eigen::Index first,
                     Eigen::Index count) {
  PairState state;
  state.pressure.resize(count);
  state.gap.resize(count);
  state.traction.resize(3, count);
  state.fluid_pressure = fluid_pressure.segment(first, count);
  state.held = system.held.middleCols(first, count);
  for (Eigen::Index i = 0; i < count; ++i) {
    const auto p = static_cast<std::size_t>(first + i);
    const auto& point = system.points()[p];
    const Eigen::Vector3d jump = motion.jumps.col(first + i);
    const auto response = system.response(p, jump);
    state.gap[i] = system.gap(p, jump);
    state.traction.col(i) = response.traction;
    state.pressure[i] = -response.traction.dot(point.normal);
    state.force += point.area * state.pressure[i];
    if (response.branch == PointBranch::open) {
      ++state.open;
      state.open_area += point.area;
    }
    if (response.branch == PointBranch::stopped) ++state.stopped;
  }
  return state;
}

}  // namespace

void describe(const JointSystem& system, const Eigen::VectorXd& fluid_pressure,
              JointSolution& solution) {
  const auto motion = system.motion(solution.displacement);
  Eigen::Index first = 0;
  for (const auto& pair : system.joint().pairs) {
    const auto count = static_cast<Eigen::Index>(pair.points.size());
    solution.pairs.push_back(pair_state(system, motion, fluid_pressure, first, count));
    first += count;
  }
  for (std::size_t s = 0; s < system.joint().screws.size(); ++s) {
    const Eigen::Vector3d moved = motion.screws.col(s);
    solution.screws.push_back({system.screw_response(s, moved[0]).force, moved[0], moved.tail<2>(),
                               system.joint().screws[s].lateral_stiffness * moved.tail<2>()});
  }
}

}  // namespace crossgrain
