// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <string>

#include "solver/interface/area_motion.h"
#include "solver/iteration/additions.h"

namespace crossgrain {

/// A screw's shank between the seat of its head and that of its thread, nut or insert.
struct ElasticScrew {
  std::string name;
  AreaMotion head;
  AreaMotion thread;
  Eigen::Vector3d axis;      ///< unit, from the thread to the head
  double axial_stiffness;    ///< force per elongation [N/mm]
  double lateral_stiffness;  ///< 12 E I / l^3 where both ends are held from turning [N/mm]
};

/// A screw's elongation and its two sideways motions, as shares of nodes.
using ScrewMotions = std::array<std::vector<StiffnessAdditions::Spring::Share>, 3>;

/// Along the axis and two directions across it: motion of the head against the thread beyond that
/// of a rigid body, which turns by the mean of both seats' rotations. The seats' rotations are
/// those of the rigid motion that fits them best in the mean square.
ScrewMotions screw_motions(const ElasticScrew& screw);

/// What is done to a screw in a state.
struct ScrewCommand {
  bool tightening;          ///< its force is given; otherwise it is locked
  double force;             ///< given, or that at which it was locked [N]
  double elongation = 0.0;  ///< at which it was locked [mm]
  double expansion = 0.0;   ///< free, since it was locked; embedding counts as one [mm]
};

struct ScrewResponse {
  double force;      ///< pulling head and thread together, never negative [N]
  double stiffness;  ///< of it by the elongation; 0 where it is slack or its force given [N/mm]
};
ScrewResponse respond(const ElasticScrew& screw, const ScrewCommand& command, double elongation);

/// @throws std::invalid_argument naming the screw and the number that is not fit.
void require_sound(const ElasticScrew& screw);
void require_sound(const ScrewCommand& command, const ElasticScrew& screw);

}  // namespace crossgrain
