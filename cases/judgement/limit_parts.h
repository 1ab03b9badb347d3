// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/governing_state.h"
#include "solver/interface/frozen_joint.h"

namespace crossgrain {

/// One of the solutions that the stress at a governing state's limit is made of: what is held, plus
/// the factor times what grows.
struct LimitPart {
  SumOfLoads state;
  double held = 0.0;                      ///< what its stress counts for in what is held [-]
  double growing = 0.0;                   ///< and in what the factor multiplies [-]
  std::vector<double> loads;              ///< of each load from outside in it [-]
  std::optional<FrozenJoint> joint = {};  ///< of joined bodies: theirs in it
  /// Of joined bodies: the part in which its screws were locked, which comes later.
  std::optional<std::size_t> locked_in = {};

  double at_limit(double factor) const { return held + factor * growing; }
};

/// Of bodies that are not joined what is held and what grows; of joined ones the solved states, and
/// those in which their screws were locked, on the straight line that they are judged by.
std::vector<LimitPart> limit_parts(const GoverningState& state, const TetrahedronMesh& mesh,
                                   const Loading& loading, const ElementarySolution& solution);

}  // namespace crossgrain
