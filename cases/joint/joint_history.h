// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/joint/joint_facts.h"
#include "cases/joint/measured_bow.h"
#include "cases/joint/seal_round.h"

namespace crossgrain {

/// What screws and seals did from state to state, as a reader follows it.
struct JointHistory {
  struct Screws {
    std::string name;
    std::vector<Eigen::Vector3d> seats;  ///< one a screw, or none known [mm]
  };
  struct Seal {
    std::string name;
    SealRound round;
  };
  struct State {
    std::string situation;
    PreloadLevel level;
    double preload;  ///< reached at assembly, over nominal [-]
    double temperature_K;
    double fluid_pressure;                     ///< 0: none [MPa]
    std::vector<std::vector<double>> forces;   ///< by group, by screw [N]
    std::vector<std::vector<double>> contact;  ///< by seal, by station, see `contact_round` [MPa]
    std::vector<double> contact_wanted;        ///< by seal: to seal; 0 where nothing asks [MPa]
    std::vector<double> seal_force;            ///< by seal, contact summed over it [N]
    std::vector<std::vector<SpanBow>> spans;   ///< by seal, from screw to screw; empty: not known
  };
  std::vector<Screws> groups;
  std::vector<Seal> seals;
  std::vector<State> states;  ///< in the order in which they were solved
};

/// @param states  each knowing every group and every seal.
JointHistory joint_history(const std::vector<ScrewGroupFacts>& groups,
                           const std::vector<SealFacts>& seals,
                           const std::vector<JointStateFacts>& states);

}  // namespace crossgrain
