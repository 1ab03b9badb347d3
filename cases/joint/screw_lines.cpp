// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/screw_lines.h"

#include <algorithm>
#include <stdexcept>

#include "cases/joint/bearing.h"
#include "cases/joint/screw_yield.h"
#include "cases/joint/stated_number.h"

namespace crossgrain {
namespace {

double greatest_force(const ScrewGroupFacts& group, const std::vector<double>& forces,
                      const std::string& situation) {
  if (forces.empty()) {
    throw std::invalid_argument("no screw of '" + group.name + "' has a force in '" + situation +
                                "'");
  }
  double greatest = 0.0;
  for (const double force : forces) {
    greatest = std::max(
        greatest,
        not_negative(force, "force of a screw of '" + group.name + "' in '" + situation + "'",
                     "N"));
  }
  return greatest;
}

JointLimit proof(const ScrewGroupFacts& group) {
  const std::string& name = group.strength.name;
  if (group.strength.proof_stress) {
    return {proof_load(group.strength, group.size), LimitStanding::standard,
            "proof load of class " + name + ", ISO 898-1"};
  }
  return {proof_load(group.strength, group.size), LimitStanding::given,
          "yield times stress area, " + name};
}

}  // namespace

std::vector<JointLine> screw_lines(const ScrewGroupFacts& group,
                                   const JointStateFacts::Group& forces,
                                   const JointStateFacts& state) {
  const double force = greatest_force(group, forces.forces, state.situation);
  const SeatLimits& limits = forces.limits;
  std::vector<JointLine> lines;
  const auto add = [&](JointMode mode, double value, const JointLimit& limit) {
    lines.push_back(
        {mode, group.name, value, limit, state.situation, state.level, std::nullopt, ""});
  };
  if (limits.bearing) {
    add(JointMode::bearing, bearing_pressure(force, group.head_outer, group.hole), *limits.bearing);
  }
  add(JointMode::screw_proof, force, proof(group));
  if (group.insert && limits.pull_out) add(JointMode::pull_out, force, *limits.pull_out);
  if (group.insert && group.boss_diameter && limits.across_layers) {
    const bool along = group.insert_along_build;
    add(along ? JointMode::tear_off : JointMode::hoop_split,
        (along ? tear_off_stress : hoop_split_stress)(force, *group.insert, *group.boss_diameter),
        *limits.across_layers);
  }
  if (!state.tightening || !group.friction) return lines;
  const double torsion = thread_torque(force, group.size, group.friction->thread);
  add(JointMode::screw_yield, screw_stress(force, torsion, group.size),
      {0.9 * group.strength.yield, LimitStanding::standard,
       "0.9 of the yield of " + group.strength.name + ", VDI 2230-1"});
  if (group.torque_out) add(JointMode::torque_out, torsion, *group.torque_out);
  return lines;
}

std::vector<JointLine> screw_lines(const ScrewGroupFacts& group) {
  std::vector<JointLine> lines;
  const auto add = [&](JointMode mode, double value, const JointLimit& limit) {
    lines.push_back({mode, group.name, value, limit, "", std::nullopt, std::nullopt, ""});
  };
  if (group.insert && group.boss_diameter) {
    add(JointMode::boss_wall, boss_wall(*group.insert, *group.boss_diameter),
        {least_boss_wall, LimitStanding::estimated,
         "as for another insert: Kastner et al., J. Manuf. Mater. Process. 7(1):42 (2023)"});
  }
  if (group.depth_under_tip) {
    add(JointMode::screw_bottoms, *group.depth_under_tip,
        {0.0, LimitStanding::given, "the tip must not meet the bottom"});
  }
  return lines;
}

}  // namespace crossgrain
