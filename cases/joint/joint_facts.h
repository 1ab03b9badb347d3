// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "cases/joint/boss.h"
#include "cases/joint/insert_pull_out.h"
#include "cases/joint/joint_line.h"
#include "cases/joint/leak_path.h"
#include "cases/joint/preload.h"
#include "cases/joint/screw_strength.h"
#include "cases/joint/seal_criteria.h"

namespace crossgrain {

/// A group of equal screws, as it stays through all states.
struct ScrewGroupFacts {
  std::string name;
  ScrewSize size;
  ScrewStrength strength;
  int count;
  PreloadRange preload;                        ///< per screw, of the tightening [N]
  std::optional<double> torque;                ///< nominal; none where a preload is given [N mm]
  std::optional<TighteningFriction> friction;  ///< none: torsion is left out
  double head_outer;                           ///< that presses: head, or washer's spread [mm]
  double hole;                                 ///< through what the head presses [mm]
  std::optional<Insert> insert;                ///< none: a nut, or a thread in metal
  std::optional<double> boss_diameter;         ///< round the insert [mm]
  bool insert_along_build = true;              ///< else it lies in the layer
  std::optional<JointLimit> torque_out;        ///< of the insert [N mm]
  std::optional<double> depth_under_tip;       ///< see `depth_under_tip()` [mm]
  std::vector<Eigen::Vector3d> seats;          ///< where each head presses; none: not known [mm]
};

/// A flat seal, as it stays through all states.
struct SealFacts {
  std::string name;
  std::vector<SealPoint> points;  ///< their `contact` is not read: every state has its own
  double width;                   ///< over which contact is averaged [mm]
  GasketConstants constants;
  double margin;  ///< over the fluid's pressure [-]
  AssemblyContact at_assembly;
  std::optional<JointLimit> greatest_contact;  ///< before the gasket is crushed [MPa]
  std::vector<Eigen::Vector3d> screws;         ///< that press it, where their heads sit [mm]
  std::optional<double> pitch_limit;           ///< of these, see `usual_pitch_limit` [mm]
};

/// What the seats of a group of screws stand at a state's temperature and time.
struct SeatLimits {
  std::optional<JointLimit> bearing;        ///< under the heads [MPa]
  std::optional<JointLimit> pull_out;       ///< of an insert [N]
  std::optional<JointLimit> across_layers;  ///< strength along the build round inserts [MPa]
};

/// The figure of a holding force that is judged by: the value where one was given, the low end of
/// an estimate.
JointLimit pull_out_limit(const HoldingForce& force);

/// The joint as it was solved once.
struct JointStateFacts {
  std::string situation;  ///< all but the preload: "service after losses, 60 degC"
  PreloadLevel level;     ///< tightened to
  double preload;         ///< reached at assembly, over nominal [-]
  double temperature_K;
  double fluid_pressure;    ///< 0: none [MPa]
  bool tightening = false;  ///< the moment of it: screws feel their torsion, gaskets seat
  bool after_losses = false;
  struct Group {
    std::vector<double> forces;  ///< of every screw [N]
    SeatLimits limits;
  };
  std::vector<Group> screws;                 ///< by group
  std::vector<std::vector<double>> contact;  ///< by seal, by point [MPa]
  /// Between the faces, by seal, by point; negative: squeezed; empty: not known [mm].
  std::vector<std::vector<double>> gap;
};

}  // namespace crossgrain
