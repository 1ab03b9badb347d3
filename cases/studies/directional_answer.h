// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/judged_cases.h"
#include "solver/directions/reduced_load.h"

namespace crossgrain {

/// The answer to every elementary load for every build direction that all bodies share, sought
/// among a few displacements. Stress is C(n) times the strain that a bead feels, which is fitted
/// once for each of them: the fit is linear, and no ball reaches beyond its body.
class DirectionalAnswer {
 public:
  /// @param model, loading, field  kept by reference; the field's frames do not count.
  /// @throws std::invalid_argument for a material that is not isotropic in its layers.
  DirectionalAnswer(const JudgedModel& model, const Loading& loading, const MaterialField& field);

  /// Take the solution for a direction in.
  /// @param displacement  unknowns x loads [mm].
  void widen(const Eigen::Vector3d& direction, const Eigen::MatrixXd& displacement);

  /// Unknowns x loads [mm]; zero while nothing has been taken in.
  Eigen::MatrixXd displacement(const Eigen::Vector3d& direction) const;

  /// What a load case is judged by: 6 x sites [MPa], material axes; empty: no such load.
  struct CaseStress {
    StressField held;
    StressField scaling;
  };
  /// Of all load cases, at the kept sites. Safe to call from several threads.
  std::vector<CaseStress> stress(const Eigen::Vector3d& direction) const;

  /// Judge stress at these of the model's sites only from here on.
  void keep(const std::vector<Eigen::Index>& sites);
  const StressSites& sites() const { return sites_; }

 private:
  Eigen::MatrixXd strain_of(const Eigen::VectorXd& displacement) const;

  const JudgedModel& model_;
  const Loading& loading_;
  const MaterialField& field_;
  DirectionalStiffness stiffness_;
  std::vector<ReducedLoad> reduced_;     ///< of each load
  MaterialField unit_;                   ///< stress is strain
  StressSites sites_;                    ///< kept
  std::vector<Eigen::Index> kept_;       ///< which of the model's
  std::vector<Eigen::MatrixXd> strain_;  ///< of each load: (6 kept sites) x vectors
  std::vector<Eigen::VectorXd> warmth_;  ///< of each load: kept sites [K]; empty without
};

}  // namespace crossgrain
