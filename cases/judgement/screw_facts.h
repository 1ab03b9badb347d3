// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/joint/joint_facts.h"
#include "cases/judgement/body_materials.h"
#include "cases/loads/joined_bodies.h"

namespace crossgrain {

/// A group of screws as it stays through all states.
/// @param material  of the body that holds the threads, with its print direction: inserts are set
/// into printed bodies, threads of metal ones are their own.
ScrewGroupFacts screw_group_facts(const BoltSpec& spec, const JoinedScrews& group,
                                  const std::vector<ElasticScrew>& screws,
                                  const MaterialAtConditions& material,
                                  const Eigen::Vector3d& print_direction);

/// A body that a screw sits on or in.
struct SeatBody {
  const MaterialAtConditions& material;
  const Eigen::Vector3d& print_direction;
};

/// What the group's seats stand with the strengths of these conditions.
SeatLimits seat_limits(const BoltSpec& spec, const ScrewGroupFacts& facts,
                       const Eigen::Vector3d& axis, const SeatBody& head, const SeatBody& thread);

}  // namespace crossgrain
