// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/screw_facts.h"

#include <cmath>

#include "cases/joint/bearing.h"
#include "cases/joint/jacking.h"
#include "cases/joint/seat_limits.h"

namespace crossgrain {
namespace {

bool printed(const SolidMaterial& material) {
  return std::holds_alternative<LayeredStrength>(material.strength);
}

/// Nearer to the build direction than to the layer.
bool along_build(const Eigen::Vector3d& axis, const Eigen::Vector3d& print_direction) {
  return std::abs(axis.dot(print_direction)) > std::sqrt(0.5);
}

}  // namespace

ScrewGroupFacts screw_group_facts(const BoltSpec& spec, const JoinedScrews& group,
                                  const std::vector<ElasticScrew>& screws,
                                  const MaterialAtConditions& material,
                                  const Eigen::Vector3d& print_direction) {
  const ScrewSize size = *find_screw_size(spec.size);
  ScrewGroupFacts facts{.name = spec.name,
                        .size = size,
                        .strength = screw_class(spec.strength_class),
                        .count = static_cast<int>(group.count),
                        .preload = group.preload,
                        .torque = spec.torque,
                        .friction = spec.friction,
                        .head_outer = spec.head_diameter,
                        .hole = size.clearance_hole,
                        .insert = {},
                        .boss_diameter = spec.boss_diameter,
                        .torque_out = {},
                        .depth_under_tip = {},
                        .seats = {}};
  for (std::size_t s = group.first; s < group.first + group.count; ++s)
    facts.seats.push_back(screws[s].head.centre);
  if (printed(material.nominal)) {
    facts.insert = Insert{spec.insert_diameter.value_or(group.hole.diameter),
                          spec.insert_length.value_or(group.hole.depth)};
    facts.insert_along_build = along_build(group.hole.axis, print_direction);
  }
  if (spec.length && !group.hole.through)
    facts.depth_under_tip = depth_under_tip(*spec.length, group.clamped_length, group.hole.depth);
  return facts;
}

SeatLimits seat_limits(const BoltSpec& spec, const ScrewGroupFacts& facts,
                       const Eigen::Vector3d& axis, const SeatBody& head, const SeatBody& thread) {
  SeatLimits limits;
  // The strengths are those after the time under load, so that the short-term share is left to
  // take.
  limits.bearing =
      seat_bearing_limit(head.material.nominal.strength, along_build(axis, head.print_direction),
                         BearingShare{}.short_term, false);
  if (!facts.insert) return limits;
  const HoldingForce holding =
      spec.pull_out ? given_pull_out(*spec.pull_out, kept(thread.material.knock_downs, "strength"))
                    : estimated_pull_out(*facts.insert, seat_shear_strength(thread.material));
  limits.pull_out = pull_out_limit(holding);
  limits.across_layers = seat_tension_limit(thread.material);
  return limits;
}

}  // namespace crossgrain
