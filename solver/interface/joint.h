// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/interface/elastic_screw.h"
#include "solver/interface/interface_law.h"
#include "solver/interface/interface_point.h"

namespace crossgrain {

/// Two faces that meet, and what happens between them.
struct InterfacePair {
  std::string name;
  InterfaceLaw law;
  std::vector<InterfacePoint> points;  ///< `overlap_faces`, then `set_contact_stiffness`
  /// Whether the distance as meshed is a gap; faces that are drawn touching, or with the gasket's
  /// room between them, fit as they are.
  bool distance_counts = false;
  double clearance = 0.0;  ///< on top of it; negative: an interference, a squeeze [mm]
};

/// What bodies are joined by.
struct Joint {
  std::vector<InterfacePair> pairs;
  std::vector<ElasticScrew> screws;
};

/// A fluid that creeps into the pairs from the faces that it touches.
struct FluidInJoint {
  double pressure;                ///< [MPa]
  std::vector<int> wetted_nodes;  ///< of the faces that it touches anyway
};

/// A state of the joint: everything that acts in it.
struct JointLoad {
  Eigen::VectorXd forces;            ///< unknowns [N], the fluid's on the wetted faces included
  std::vector<ScrewCommand> screws;  ///< one for each
  std::vector<FluidInJoint> fluids;
  std::vector<double> clearance_change;  ///< by pair, heat in a gasket for one; empty: none [mm]
};

/// What became of the points of a pair; columns as its points.
struct PairState {
  Eigen::VectorXd pressure;        ///< between the faces, the fluid's not counted [MPa]
  Eigen::VectorXd gap;             ///< negative: squeezed, or pressed into each other [mm]
  Eigen::VectorXd fluid_pressure;  ///< of the fluid that has come there; 0: none [MPa]
  Eigen::Matrix3Xd traction;       ///< of the second face on the first [MPa]
  Eigen::Matrix3Xd held;           ///< for a start nearby
  int open = 0;                    ///< points that carry nothing
  int stopped = 0;                 ///< points on the stop
  double open_area = 0.0;          ///< [mm^2]
  double force = 0.0;              ///< pressure summed over the area [N]
};

struct ScrewState {
  double force;                    ///< along it [N]
  double elongation;               ///< to be locked at [mm]
  Eigen::Vector2d lateral_motion;  ///< of its head against its thread [mm]
  Eigen::Vector2d lateral_force;   ///< [N]
};

struct JointReport {
  int solves = 0;         ///< linear systems
  int augmentations = 0;  ///< rounds
  int fluid_rounds = 0;
  /// Mean depth to which faces that push or tie directly are off, weighed by pressure, as a share
  /// of what one element behind either gives.
  double penetration = 0.0;
  double residual = 0.0;  ///< of the joint's forces at the end, over all forces
};

struct JointSolution {
  Eigen::VectorXd displacement;  ///< unknowns [mm]
  /// What pairs, screws and a fluid between faces do to the nodes, so that K u = load + forces
  /// where nothing is held; unknowns [N].
  Eigen::VectorXd forces;
  std::vector<PairState> pairs;
  std::vector<ScrewState> screws;
  JointReport report;
};

}  // namespace crossgrain
