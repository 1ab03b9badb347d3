// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "cases/joint/joint_facts.h"
#include "cases/joint/joint_history.h"
#include "cases/joint/torque_window.h"
#include "cases/joint/window_openers.h"

namespace crossgrain {

/// How tight a group of screws is as asked for.
struct GroupTightness {
  std::string name;
  int screws;
  PreloadRange preload;          ///< per screw [N]
  std::optional<double> torque;  ///< nominal; none where a preload was given [N mm]
};

/// What the joint comes to.
struct JudgedJoint {
  std::vector<GroupTightness> groups;
  std::vector<JointLine> lines;  ///< the worst of every mode and owner, most used up first
  std::vector<PreloadResponse> responses;  ///< what the window is made of
  std::optional<TorqueWindow> window;      ///< none: no situation was solved at two preloads
  std::vector<TemperatureWindow> by_temperature;
  std::vector<OpenerAdvice> openers;  ///< if the window is empty
  JointHistory history;

  bool holds() const;
  /// Whether a limit is broken that is firm, or a number is none.
  bool fails() const;
};

/// Judge a joint by its solved states. Every line is judged in every state and the worst is kept.
/// The window takes, situation by situation, the preloads that were solved for; at the moment of
/// tightening a screw without preload presses nothing, which gives one point more.
/// @param kept_after_losses  share of the preload that creep and embedding leave, for the advice on
///                           metal limiters [-]
/// @throws std::invalid_argument naming what is missing or no number.
JudgedJoint judge_joint(const std::vector<ScrewGroupFacts>& groups,
                        const std::vector<SealFacts>& seals,
                        const std::vector<JointStateFacts>& states, double kept_after_losses = 1.0);

}  // namespace crossgrain
