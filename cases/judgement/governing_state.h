// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "cases/judgement/judged_cases.h"

namespace crossgrain {

/// Of which load case, at which site and under which part of the loads the governing factor is.
struct GoverningState {
  int load_case;
  Eigen::Index site;
  FailureMode mode;
  double factor;
  bool held_apart;  ///< the factor multiplies the scaling loads alone

  /// What each elementary load counts for when the limit is reached.
  std::vector<double> at_limit(const LoadCase& judged) const;
};

/// Stress at single sites in a governing state's load case.
class StateStress {
 public:
  /// Keeps state, load case, solution and field by reference.
  StateStress(const GoverningState& state, const JudgedModel& model, const Loading& loading,
              const ElementarySolution& solution, const MaterialField& field);

  /// What the factor multiplies, and what stays: material axes [MPa].
  Vector6d multiplied(Eigen::Index site) const;
  Vector6d held(Eigen::Index site) const;
  /// Of the state's mode. @return nothing: no limit.
  std::optional<double> factor_at(Eigen::Index site) const;
  const Strength& strength_at(Eigen::Index site) const;
  Matrix6d to_material(Eigen::Index site) const;

 private:
  Vector6d sum(const std::vector<double>& counts, Eigen::Index site) const;

  const GoverningState& state_;
  JudgedModel model_;
  const LoadCase& load_case_;
  const ElementarySolution& solution_;
  const MaterialField& field_;
  Yardstick yardstick_;
};

/// The site of a place's position that belongs to the body of its name.
Eigen::Index site_of(const StressSites& sites, const ModeResult& place);

/// @param result  with its worst factors found.
/// @return nothing if there is no state at the limit: no limit, or what is held is past it.
std::optional<GoverningState> governing_state(const RunResult& result, const StressSites& sites);

}  // namespace crossgrain
