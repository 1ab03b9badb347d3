// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/governing_state.h"

namespace crossgrain {

/// Beyond this part of it a factor is a guess. Common practice, no source.
inline constexpr double coarse_mesh = 0.25;

/// The estimate, and which elements it comes from.
struct MeshErrorEstimate {
  MeshError error;
  /// Per element, to refine by: half of it from the error of the governing factor, half from errors
  /// where the part is nearly as weak. The sum is what the factor may be off by.
  Eigen::VectorXd factor_shares;
  /// Displacement under the load whose work is the factor's change: what each place counts for it.
  /// Of joined bodies with the joint as it is in the last state at the limit, its screws locked.
  Eigen::VectorXd counted;
};

/// By recovered stress: the error in energy of the state in which the limit is reached, and by the
/// load whose work is the governing factor's change, what that error makes of the factor.
/// @param solver  with the field's stiffness; of joined bodies, left with the joint's.
/// @param solution  with `field`.
/// @param judged  the state's load case.
/// @param place  of the state. Where it is not converged the estimate is the greater one by the
///               errors' sizes alone: they cancel less than they seem to where the elements are
///               longer than what is judged. Where only a place of its kind is resolved, the
///               difference from there counts as well.
MeshErrorEstimate estimate_mesh_error(const GoverningState& state, const JudgedModel& model,
                                      const Loading& loading, const ElementarySolution& solution,
                                      const MaterialField& field, const CaseResult& judged,
                                      const GoverningPlace& place, StaticSolver& solver);

}  // namespace crossgrain
