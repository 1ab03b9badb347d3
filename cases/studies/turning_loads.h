// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/judged_cases.h"
#include "solver/directions/directional_load.h"
#include "solver/interface/frozen_joint.h"

namespace crossgrain {

/// Joined bodies as the case has them printed: what their joint is frozen at while one of them
/// turns.
struct JointReference {
  const ElementarySolution& solution;
  std::vector<FrozenJoint> joints;  ///< by state
};

/// The elementary loads of a case while some bodies turn together and the others are held as they
/// are. Of joined bodies they are the states of the joint, frozen: linear in the displacement, but
/// that screws are locked at what they come to when they are tightened.
class TurningLoads {
 public:
  /// @param model, loading, field  kept by reference; the field as the case has the bodies printed.
  /// @param bodies     that turn.
  /// @param reference  of joined bodies, kept by reference; null: no faces that can part.
  TurningLoads(const JudgedModel& model, const Loading& loading, const MaterialField& field,
               const std::vector<BodyId>& bodies, const JointReference* reference);

  std::size_t size() const { return loads_.size(); }
  /// Whether a load case counts a load, or one that its screws are locked by.
  bool counts(std::size_t load) const { return counts_[load] != 0; }
  /// The load at which its screws were locked, which comes before it; none: they were not.
  std::optional<std::size_t> locked_in(std::size_t load) const;

  const std::vector<int>& turning_frames() const { return turning_; }
  MaterialField field_along(const Eigen::Vector3d& direction) const;
  /// Its told parts count what the screws are longer.
  const DirectionalLoad& load(std::size_t load) const { return loads_[load]; }
  /// Stiffness beside the elements'.
  StiffnessAdditions additions(std::size_t load) const;
  /// By how much each screw is longer than in the reference, unknowns [mm] -> screws [mm].
  /// @param displacements  of the load that they are locked in; unknowns x n.
  /// @return screws x n: linear in the displacement but for the reference's own.
  Eigen::MatrixXd elongations(const Eigen::MatrixXd& displacements) const;
  Eigen::VectorXd reference_elongations(std::size_t load) const;

  /// Solve what counts for one direction. Leaves the solver with its material and the last load's
  /// additions.
  /// @param start  unknowns x loads [mm], where iterations begin.
  /// @return unknowns x loads [mm]; zero where nothing counts.
  Eigen::MatrixXd solve(StaticSolver& solver, const Eigen::Vector3d& direction,
                        const Eigen::MatrixXd& start, double tolerance) const;

 private:
  Eigen::VectorXd forces(std::size_t load, const Loading& loading) const;
  void count(std::size_t load);

  const JudgedModel& model_;
  const Loading& loading_;
  const MaterialField& field_;
  const JointReference* reference_;
  std::vector<int> turning_;
  std::vector<DirectionalLoad> loads_;
  std::vector<char> counts_;
  std::vector<ScrewMotions> screws_;
};

}  // namespace crossgrain
