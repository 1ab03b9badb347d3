// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/limit_parts.h"
#include "solver/sensitivity/material_answer.h"

namespace crossgrain {

/// The governing factor under other solids, at its place, without solving for them: by the load
/// whose work is the factor's change. Of joined bodies that load is answered with the joint as it
/// is in each state, and what other solids make of the elongation at which screws were locked goes
/// on to the states that come after; points stay open or pressed, fluids where they are.
class ForetoldFactor {
 public:
  /// Keeps model, loading and field by reference.
  /// @param solution  with `field` and nominal constants.
  /// @param counted   of the mesh's error; joined bodies have theirs solved for here, one a part,
  ///                  and leave the solver with another joint's additions.
  ForetoldFactor(const GoverningState& state, const JudgedModel& model, const Loading& loading,
                 const ElementarySolution& solution, const MaterialField& field,
                 const Eigen::VectorXd& counted, StaticSolver& solver);

  /// @param solids  by body.  @return nothing: no limit.
  std::optional<double> with(const std::vector<SolidMaterial>& solids) const;

 private:
  /// One part: how its stress at the place answers.
  struct Part {
    double held, growing;
    std::vector<double> loads;
    std::array<Eigen::VectorXd, 2> displacements;  ///< the solution, what each place counts
    MaterialAnswer answer;
    std::optional<std::size_t> locked_in;
    /// Work on either displacement of what the screws pull less when either of the part in which
    /// they were locked is what they were longer then [N mm].
    Eigen::Matrix2d by_locking;
  };
  struct Counts {
    double held = 0.0, growing = 0.0;  ///< of the factor [-]
  };

  Counts counts_with(const std::vector<SolidMaterial>& solids) const;
  Eigen::Vector2d other_work(const Part& part, const std::vector<SolidMaterial>& solids) const;

  const JudgedModel& model_;
  const Loading& loading_;
  const MaterialField& field_;
  double factor_;
  std::optional<double> most_;  ///< that the load case knows
  std::vector<Part> parts_;
  Counts nominal_;
};

}  // namespace crossgrain
