// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/studies/turning_loads.h"
#include "solver/directions/reduced_load.h"

namespace crossgrain {

/// What beads feel at some of a model's sites of each displacement that an answer is made of.
struct BeadStrain {
  StressSites sites;
  std::vector<Eigen::MatrixXd> strain;  ///< of each load: (6 sites) x vectors
  std::vector<Eigen::VectorXd> warmth;  ///< of each load: sites [K]; empty without
};

/// At some of the sites alone.
BeadStrain felt_at(const BeadStrain& felt, const std::vector<Eigen::Index>& sites);

/// The answer to every elementary load for every build direction that some bodies share, sought
/// among a few displacements. Stress is C(n) times the strain that a bead feels, which is fitted
/// once for each of them: the fit is linear, and no ball reaches beyond its body.
class DirectionalAnswer {
 public:
  /// @param model, loading, field, loads  kept by reference; of the field's frames only those count
  /// that are held.
  /// @param sites  of the model's, where stress is wanted: of bodies that turn.
  /// @throws std::invalid_argument for a material that is not isotropic in its layers.
  DirectionalAnswer(const JudgedModel& model, const Loading& loading, const MaterialField& field,
                    const TurningLoads& loads, const std::vector<Eigen::Index>& sites);

  /// Take the solutions for some directions in.
  /// @param directions     3 x n.
  /// @param displacements  of each: unknowns x loads [mm].
  void widen(const Eigen::Matrix3Xd& directions, const std::vector<Eigen::MatrixXd>& displacements);

  /// Unknowns x loads [mm]; zero while nothing has been taken in.
  Eigen::MatrixXd displacement(const Eigen::Vector3d& direction) const;

  /// What a load case is judged by: 6 x sites [MPa], material axes; empty: no such load.
  struct CaseStress {
    StressField held;
    StressField scaling;
  };
  /// What an answer is sought among, of each load.
  using Part = std::vector<Eigen::MatrixXd>;
  /// All that was taken in but some directions.
  /// @param left_out  by direction, in the order they were taken in: whether it is.
  Part without(const std::vector<char>& left_out) const;

  /// Of all load cases. Safe to call from several threads.
  /// @param felt  of this answer, nothing having been taken in since.
  /// @param part  that the answer is sought among; null: all.
  std::vector<CaseStress> stress(const Eigen::Vector3d& direction, const BeadStrain& felt,
                                 const Part* part = nullptr) const;

  /// At all of the sites.
  const BeadStrain& everywhere() const { return everywhere_; }

 private:
  /// Of each load's vectors; empty of what does not count.
  std::vector<Eigen::VectorXd> coefficients(const Eigen::Vector3d& direction,
                                            const Part* part = nullptr) const;
  void widen_load(std::size_t load, const Eigen::Matrix3Xd& directions,
                  const std::vector<Eigen::MatrixXd>& displacements);

  const JudgedModel& model_;
  const Loading& loading_;
  const MaterialField& field_;
  const TurningLoads& loads_;
  std::vector<Eigen::Index> sites_;  ///< of the model's
  DirectionalStiffness stiffness_;
  std::vector<ReducedLoad> reduced_;          ///< of each load
  std::vector<Eigen::MatrixXd> elongations_;  ///< of screws, by its vectors [mm]
  BeadStrain everywhere_;
};

}  // namespace crossgrain
