// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/joint_iteration.h"

#include <algorithm>
#include <sstream>
#include <stdexcept>

namespace crossgrain {
namespace {

// The linear solver leaves 1e-9: what is less than ten times that is its noise, not a point that
// should be on another branch.
constexpr double small_residual = 1e-8;
// A whole step that leaves less slope than this share of the one at its start is taken whole: at
// the solution whole steps are what makes the iteration end exactly.
constexpr double slope_left_by_a_whole_step = 0.5;
constexpr int halvings = 12;
// A step need not be solved for more finely than where it leads to is off; the last one is.
constexpr double first_tolerance = 3e-4;
constexpr double share_of_residual = 0.01;
constexpr double finest_loose_tolerance = 1e-7;

/// @param residual  that the step before left. @return none: the solver's own.
std::optional<double> step_tolerance(double residual) {
  const double enough = std::min(first_tolerance, share_of_residual * residual);
  if (enough > finest_loose_tolerance) return enough;
  return std::nullopt;
}

JointMotion moved(const JointMotion& at, double length, const JointMotion& step) {
  return {at.jumps + length * step.jumps, at.screws + length * step.screws};
}

std::size_t open_points(const JointTangent& tangent) {
  return static_cast<std::size_t>(
      std::count(tangent.branches.begin(), tangent.branches.end(), PointBranch::open));
}

}  // namespace

void JointIteration::use(const JointTangent& tangent) {
  if (used_ && used_->stiffness == tangent.stiffness &&
      used_->screw_stiffness == tangent.screw_stiffness)
    return;
  solver_.set_additions(system_.additions(tangent));
  used_ = tangent;
}

Eigen::VectorXd JointIteration::solved(const JointTangent& tangent, const Eigen::VectorXd& forces,
                                       const Eigen::VectorXd& u, std::optional<double> tolerance) {
  const Eigen::MatrixXd start = u;
  try {
    use(tangent);
    // What the joint pushes with may be a thousand times the load and would hide what is missing.
    solver_.require_balanced(forces, "what acts on the joint from outside");
    return solver_.solve(forces - system_.forces_at_rest(tangent), Unbalanced::refused, &start,
                         tolerance);
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("the joint could not be solved with " +
                             std::to_string(open_points(tangent)) + " of its " +
                             std::to_string(system_.size()) +
                             " points open; if that leaves a body loose, tighten its screws or "
                             "support it: " +
                             error.what());
  }
}

double JointIteration::step_length(const Eigen::VectorXd& u, const Eigen::VectorXd& step,
                                   const Eigen::VectorXd& forces) const {
  const JointMotion at = system_.motion(u), along = system_.motion(step);
  const double elastic = step.dot(solver_.internal_forces(u).col(0) - forces);
  const double stiffness = step.dot(solver_.internal_forces(step).col(0));
  const auto slope = [&](double length) {
    return elastic + length * stiffness + system_.work(moved(at, length, along), along);
  };
  if (!(slope(1.0) > slope_left_by_a_whole_step * std::abs(slope(0.0)))) return 1.0;
  double low = 0.0, high = 1.0;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (slope(middle) > 0.0 ? high : low) = middle;
  }
  return low > 0.0 ? low : high;
}

JointIteration::End JointIteration::solve(const Eigen::VectorXd& forces, Eigen::VectorXd& u,
                                          bool closed) {
  double residual = 1.0;
  std::size_t open = 0;
  for (int step = 1; step <= steps_most_; ++step) {
    const bool first_guess = closed && step == 1;
    const JointTangent tangent = system_.tangent(system_.motion(u), first_guess);
    const auto tolerance = step_tolerance(residual);
    const Eigen::VectorXd next = solved(tangent, forces, u, tolerance);
    // Of the whole step: one along which nothing changes but round-off has no slope to go by.
    const auto [difference, joint] = system_.departure(tangent, system_.motion(next));
    const double scale = joint + forces.norm();
    residual = scale > 0.0 ? difference / scale : 0.0;
    if (difference <= small_residual * scale && !tolerance) {
      u = next;
      return {step, residual};
    }
    const double length = first_guess ? 1.0 : step_length(u, next - u, forces);
    u += length * (next - u);
    open = open_points(tangent);
  }
  std::ostringstream message;
  message << "the joint's iteration did not end within " << steps_most_
          << " steps: its forces still change by " << residual << " of all, with " << open << " of "
          << system_.size() << " points open";
  throw std::runtime_error(message.str());
}

}  // namespace crossgrain
