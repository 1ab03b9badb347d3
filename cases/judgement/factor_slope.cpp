// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/factor_slope.h"

namespace crossgrain {
namespace {

/// How a failure index grows with each component of the stress, material axes [1/MPa].
Vector6d index_slope(FailureMode mode, const Strength& strength, const Vector6d& stress) {
  const double step = 1e-5 * stress.cwiseAbs().maxCoeff();
  Vector6d slope;
  for (int k = 0; k < 6; ++k) {
    const Vector6d aside = step * Vector6d::Unit(k);
    slope[k] = (failure_index(mode, strength, stress + aside) -
                failure_index(mode, strength, stress - aside)) /
               (2.0 * step);
  }
  return slope;
}

}  // namespace

Vector6d factor_slope(const GoverningState& state, const StateStress& stress) {
  const Vector6d growing = stress.multiplied(state.site);
  const Vector6d at_limit = stress.held(state.site) + state.factor * growing;
  const Vector6d slope = index_slope(state.mode, stress.strength_at(state.site), at_limit);
  return -stress.to_material(state.site).transpose() * slope / slope.dot(growing);
}

}  // namespace crossgrain
