// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/elements/material_field.h"

namespace crossgrain {

/// Bound on the condition of one field's stiffness against another's on the same mesh: the ratio of
/// the greatest to the least eigenvalue of C_new x = lambda C_old x over all points. Iterations
/// with a preconditioner made for the old field grow at most by its square root.
/// @return infinity if the fields are cut up too finely to be worth looking at.
double spectrum_ratio(const MaterialField& old_field, const MaterialField& new_field);

}  // namespace crossgrain
