// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/governing_state.h"

namespace crossgrain {

/// What a state's factor gains for each component of a change of the stress at its site when the
/// limit is reached, global axes [1/MPa].
Vector6d factor_slope(const GoverningState& state, const StateStress& stress);

}  // namespace crossgrain
